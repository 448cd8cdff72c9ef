import type { SodiumPerson } from "../../../lib/questions/sodium-people"
import { pairedWords } from "../../../lib/figures/diet-figure"
import { counted, day, listed, milligrams, sentenceCase } from "../../../lib/speech/format"
import { classWords } from "../../_ui/class-words"
import type { ChosenMonth } from "../months"
import { dietMethodWords } from "../diet-method-words"
import { completenessWords } from "../diet-part-words"
import styles from "../people-list.module.css"
import { PersonPressure } from "../person-pressure"
import { PersonValue } from "../person-value"
import { PersonNextVisit } from "../person-values"
import { PersonWho } from "../person-who"

/** One person: the sodium and how it was asked, the pressure against its target, the classes taken, and risk and visits. */
export function PersonRow({ person, chosen }: { person: SodiumPerson; chosen: ChosenMonth }) {
  return (
    <tr role="row" className={person.is_severe ? styles.severe : undefined}>
      <PersonWho person={person} chosen={chosen} />
      <td role="cell">
        <Sodium person={person} />
      </td>
      <td role="cell">
        <PersonPressure person={person} />
      </td>
      <td role="cell">
        <p>
          <strong>{counted(person.classes.length, "class", "classes")}</strong>
        </p>
        <p className={styles.soft}>{sentenceCase(listed(person.classes.map(classWords)))}</p>
      </td>
      <td role="cell" className={styles.values}>
        <Course person={person} isRunning={chosen.isRunning} />
      </td>
    </tr>
  )
}

function Sodium({ person }: { person: SodiumPerson }) {
  const { sodium_mg: mg, change_mg: change, diet_last_on: last } = person
  return (
    <>
      {mg === null ? <p>Not assessed</p> : <p className={styles.figure}>{milligrams(mg)}</p>}
      {change === null ? null : <p>{pairedWords({ n: 1, changeMg: change, interval: null })} than before</p>}
      {person.series === null ? null : (
        <p className={styles.soft}>{sentenceCase(dietMethodWords(person.methods ?? person.series))}</p>
      )}
      {person.has_comparator ? <p className={styles.soft}>rests on a result with &lt; or &gt;</p> : null}
      <p className={styles.soft}>{last === null ? "never a record" : `last record ${day(last)}`}</p>
      <Urine person={person} />
    </>
  )
}

function Urine({ person }: { person: SodiumPerson }) {
  if (person.urine_on === null) return null
  const words = completenessWords({ ...person, completeness: "doubtful", missing: null })
  return (
    <p>
      24-hour urine {day(person.urine_on)}: {words}
    </p>
  )
}

function Course({ person, isRunning }: { person: SodiumPerson; isRunning: boolean }) {
  const { g, a, risk_cell: risk, dietitian_seen_on: seen } = person
  return (
    <dl>
      <PersonValue name="Risk" on={null} absent="not known">
        {risk === null ? null : `${risk} (${g} ${a})`}
      </PersonValue>
      <PersonValue name="Dietitian" on={null} absent="never seen">
        {seen === null ? null : day(seen)}
      </PersonValue>
      {isRunning ? <PersonNextVisit person={person} /> : null}
    </dl>
  )
}
