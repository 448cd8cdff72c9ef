import type { ActiveDrug } from "../../../lib/questions/active-drugs"
import type { SeveralClassesPerson } from "../../../lib/questions/several-classes-people"
import { count, day, lab } from "../../../lib/speech/format"
import { PersonHead } from "../../_ui/person-head"
import type { ChosenMonth } from "../months"
import styles from "../people-list.module.css"
import { PersonDrugs } from "../person-drugs"
import { PersonPressure } from "../person-pressure"
import { PersonValue } from "../person-value"
import { findingsWords } from "./row-words"

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
        <PersonPressure person={person} />
      </td>
      <td role="cell">
        <PersonDrugs classes={person.classes} drugs={drugs} />
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
      <PersonValue name="Potassium" on={person.potassium_on}>
        {potassium === null
          ? null
          : lab({ number: potassium, comparator: person.potassium_comparator, unit: "mmol/L", decimals: 1 })}
      </PersonValue>
      <PersonValue name="eGFR" on={person.egfr_on}>
        {egfr === null ? null : count(egfr)}
      </PersonValue>
      {isRunning ? (
        <PersonValue name="Next visit" on={null} absent="none booked">
          {person.next_visit_on === null ? null : day(person.next_visit_on)}
        </PersonValue>
      ) : null}
    </dl>
  )
}
