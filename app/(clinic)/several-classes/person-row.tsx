import type { ReactNode } from "react"
import type { ActiveDrug } from "../../../lib/questions/active-drugs"
import type { SeveralClassesPerson } from "../../../lib/questions/several-classes-people"
import { count, day, lab, pressure } from "../../../lib/speech/format"
import { PersonHead } from "../../_ui/person-head"
import { PressureMark } from "../../_ui/pressure-mark"
import type { ChosenMonth } from "../months"
import { drugGroups, drugWords, findingsWords } from "./row-words"
import styles from "./several-classes.module.css"

type RowProps = { person: SeveralClassesPerson; drugs: ActiveDrug[]; chosen: ChosenMonth }

/** One person: the pressure against its target, what is taken for it, what to look at first, and what bears on a change. */
export function PersonRow({ person, drugs, chosen }: RowProps) {
  return (
    <tr role="row" className={person.is_severe ? styles.severe : undefined}>
      <PersonHead person={person} month={chosen.param}>
        <p className={styles.soft}>{count(person.age_years)} years</p>
        <p className={styles.soft}>{person.clinician_name ?? "no clinician"}</p>
        <p className={styles.soft}>{person.site}</p>
      </PersonHead>
      <td role="cell">
        <Pressure person={person} />
      </td>
      <td role="cell">
        <Drugs person={person} drugs={drugs} />
      </td>
      <td role="cell">
        <Findings person={person} />
      </td>
      <td role="cell" className={styles.values}>
        <Values person={person} isRunning={chosen.isRunning} />
      </td>
    </tr>
  )
}

function Pressure({ person }: { person: SeveralClassesPerson }) {
  return (
    <>
      <p className={styles.figure}>{pressure(person.systolic, person.diastolic)}</p>
      {person.is_severe ? <p className={styles.severeWords}>Severe</p> : null}
      <p className={styles.soft}>
        <PressureMark source={person.bp_source} />, {day(person.bp_on)}
      </p>
      <p className={styles.soft}>target below {pressure(person.systolic_limit, person.diastolic_limit)}</p>
    </>
  )
}

function Drugs({ person, drugs }: { person: SeveralClassesPerson; drugs: ActiveDrug[] }) {
  return (
    <>
      <p>
        <strong>{count(person.classes.length)} classes</strong>
      </p>
      <ul>
        {drugGroups(person.classes, drugs).map((group) => (
          <li key={group.name}>
            {group.name}:{" "}
            <span className={styles.soft}>
              {group.drugs.map(drugWords).join("; ") || "drug not on record today"}
            </span>
          </li>
        ))}
      </ul>
    </>
  )
}

function Findings({ person }: { person: SeveralClassesPerson }) {
  return (
    <ul className={styles.findings}>
      {findingsWords(person).map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  )
}

function Values({ person, isRunning }: { person: SeveralClassesPerson; isRunning: boolean }) {
  const { potassium, egfr } = person
  return (
    <dl>
      <Value name="Potassium" on={person.potassium_on}>
        {potassium === null
          ? null
          : lab({ number: potassium, comparator: person.potassium_comparator, unit: "mmol/L", decimals: 1 })}
      </Value>
      <Value name="eGFR" on={person.egfr_on}>
        {egfr === null ? null : count(egfr)}
      </Value>
      {isRunning ? (
        <Value name="Next visit" on={null} absent="none booked">
          {person.next_visit_on === null ? null : day(person.next_visit_on)}
        </Value>
      ) : null}
    </dl>
  )
}

function Value(props: { name: string; on: string | null; absent?: string; children: ReactNode }) {
  return (
    <div>
      <dt>{props.name}</dt>
      <dd>
        {props.children ?? <span className={styles.soft}>{props.absent ?? "no result"}</span>}
        {props.on === null ? null : <span className={styles.soft}>, {day(props.on)}</span>}
      </dd>
    </div>
  )
}
