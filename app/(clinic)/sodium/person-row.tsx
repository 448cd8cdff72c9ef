import type { SodiumPerson } from "../../../lib/questions/sodium-people"
import { pairedWords } from "../../../lib/figures/diet-figure"
import { count, counted, day, listed, milligrams, sentenceCase } from "../../../lib/speech/format"
import { classWords } from "../../_ui/class-words"
import { PersonHead } from "../../_ui/person-head"
import type { ChosenMonth } from "../months"
import { dietMethodWords } from "../diet-method-words"
import { completenessWords } from "../diet-part-words"
import styles from "../people-list.module.css"
import { PersonPressure } from "../person-pressure"
import { PersonValue } from "../person-value"

/** One person: the sodium and how it was asked, the pressure against its target, the classes taken, and risk and visits. */
export function PersonRow({ person, chosen }: { person: SodiumPerson; chosen: ChosenMonth }) {
  return (
    <tr role="row" className={person.is_severe ? styles.severe : undefined}>
      <PersonHead person={person} month={chosen.param}>
        <p className={styles.soft}>{count(person.age_years)} years</p>
        <p className={styles.soft}>{person.clinician_name ?? "no clinician"}</p>
        <p className={styles.soft}>{person.site}</p>
      </PersonHead>
      <td role="cell">
        <Sodium person={person} />
      </td>
      <td role="cell">
        <Pressure person={person} />
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

function Pressure({ person }: { person: SodiumPerson }) {
  const { systolic, diastolic, bp_source, bp_on, systolic_limit, diastolic_limit, is_severe } = person
  if (systolic === null || diastolic === null || bp_source === null || bp_on === null)
    return <p className={styles.soft}>not measured</p>
  if (systolic_limit === null || diastolic_limit === null) return null
  const measured = { systolic, diastolic, bp_source, bp_on, systolic_limit, diastolic_limit, is_severe }
  return <PersonPressure person={measured} />
}

function Course({ person, isRunning }: { person: SodiumPerson; isRunning: boolean }) {
  const { g, a, risk_cell: risk, dietitian_seen_on: seen, next_visit_on: next } = person
  return (
    <dl>
      <PersonValue name="Risk" on={null} absent="not known">
        {risk === null ? null : `${risk} (${g} ${a})`}
      </PersonValue>
      <PersonValue name="Dietitian" on={null} absent="never seen">
        {seen === null ? null : day(seen)}
      </PersonValue>
      {isRunning ? (
        <PersonValue name="Next visit" on={null} absent="none booked">
          {next === null ? null : day(next)}
        </PersonValue>
      ) : null}
    </dl>
  )
}
