import type { WordedMeasure } from "../../../lib/measures/types"
import type { TriedPerson } from "../../../lib/questions/tried-people"
import { count, sentenceCase } from "../../../lib/speech/format"
import { standingWords } from "../../../lib/speech/measure-words"
import { PersonHead } from "../../_ui/person-head"
import table from "../../_ui/table.module.css"
import styles from "./tried-rows.module.css"

/** Who would stand elsewhere today: where they stand now, and where they would. The name opens the patient. */
export function TriedPeople(props: {
  now: WordedMeasure
  then: WordedMeasure
  people: TriedPerson[]
  moved: number
}) {
  const { now, then, people, moved } = props
  if (people.length === 0) return null
  return (
    <details className={styles.people}>
      <summary>
        Who they are<span className="visually-hidden">: {now.name}</span>
      </summary>
      {people.length < moved ? (
        <p className={styles.interval}>
          The first {count(people.length)} of {count(moved)} by name.
        </p>
      ) : null}
      <div className={table.frame}>
        <table className={table.table} role="table">
          <caption className="visually-hidden">{now.name}: people who would stand elsewhere today</caption>
          <thead role="rowgroup">
            <tr role="row">
              <th scope="col" role="columnheader">
                Name
              </th>
              <th scope="col" role="columnheader">
                Now
              </th>
              <th scope="col" role="columnheader">
                Proposed
              </th>
            </tr>
          </thead>
          <tbody role="rowgroup">
            {people.map((person) => (
              <tr key={person.public_id} role="row">
                <PersonHead person={person} month={null} />
                <td role="cell" data-label="Now">
                  {sentenceCase(standingWords(now, person.now))}
                </td>
                <td role="cell" data-label="Proposed">
                  {sentenceCase(standingWords(then, person.then))}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  )
}
