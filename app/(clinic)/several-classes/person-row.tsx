import type { ActiveDrug } from "../../../lib/questions/active-drugs"
import type { SeveralClassesPerson } from "../../../lib/questions/several-classes-people"
import type { ChosenMonth } from "../months"
import styles from "../people-list.module.css"
import { PersonDrugs } from "../person-drugs"
import { PersonPressure } from "../person-pressure"
import { PersonEgfr, PersonNextVisit, PersonPotassium } from "../person-values"
import { PersonWho } from "../person-who"
import { findingsWords } from "./row-words"

type RowProps = { person: SeveralClassesPerson; drugs: ActiveDrug[]; chosen: ChosenMonth }

/** One person: the pressure against its target, what is taken for it, what to look at first, and what bears on a change. */
export function PersonRow({ person, drugs, chosen }: RowProps) {
  return (
    <tr role="row" className={person.is_severe ? styles.severe : undefined}>
      <PersonWho person={person} chosen={chosen} />
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
  return (
    <dl>
      <PersonPotassium person={person} />
      <PersonEgfr person={person} />
      {isRunning ? <PersonNextVisit person={person} /> : null}
    </dl>
  )
}
