import type { Settings } from "../../../lib/domain/settings"
import type { OwnChange } from "../../../lib/questions/own-changes"
import { count, day } from "../../../lib/speech/format"
import { PersonHead } from "../../_ui/person-head"
import type { ChosenMonth } from "../months"
import people from "../people-list.module.css"
import { changeSaid } from "./change-words"
import styles from "./my-patients.module.css"

/** One person with all that changed, most pressing first. */
export function ChangedRow(props: { changes: OwnChange[]; chosen: ChosenMonth; settings: Settings }) {
  const { changes, chosen, settings } = props
  const [person] = changes
  if (!person) return null
  const isUrgent = person.is_urgent
  return (
    <tr role="row" className={isUrgent ? people.severe : undefined}>
      <PersonHead person={person} month={chosen.param}>
        <p className={people.soft}>
          {count(person.age_years)} years{chosen.isRunning ? `, ${visitWords(person)}` : ""}
        </p>
      </PersonHead>
      <td role="cell">
        <ul className={styles.changeList}>
          {changes.map((change, place) => (
            <Change key={place} change={change} settings={settings} />
          ))}
        </ul>
      </td>
    </tr>
  )
}

function visitWords({ next_visit_on: on }: OwnChange): string {
  return on === null ? "no visit booked" : `next visit ${day(on)}`
}

const marks: Partial<Record<OwnChange["kind"], string>> = {
  urgent: "!",
  worse: "\u2193",
  better: "\u2191",
}

function Change({ change, settings }: { change: OwnChange; settings: Settings }) {
  const { name, now, why } = changeSaid(change, settings)
  return (
    <li className={change.kind === "urgent" ? styles.urgent : undefined}>
      <span aria-hidden="true" className={styles.mark}>
        {marks[change.kind] ?? "\u2013"}
      </span>
      <span>
        {change.kind === "urgent" ? <strong>Urgent: </strong> : null}
        <strong>{name}</strong>
        {now === "" ? null : <>: {now}</>}
        {why === "" ? null : <span className={people.soft}>, {why}</span>}
      </span>
    </li>
  )
}
