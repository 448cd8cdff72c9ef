import type { StartingGroupId } from "../../../lib/questions/starting-and-stopping-groups"
import type { StartingPerson } from "../../../lib/questions/starting-and-stopping-people"
import { listed, milligrams, sentenceCase } from "../../../lib/speech/format"
import { drugWords } from "../drug-words"
import type { ChosenMonth } from "../months"
import styles from "../people-list.module.css"
import { PersonDrugs } from "../person-drugs"
import { PersonPressure } from "../person-pressure"
import { PersonValue } from "../person-value"
import { PersonEgfr, PersonNextVisit } from "../person-values"
import { PersonWho } from "../person-who"
import {
  ageWords,
  endWords,
  findingsWords,
  keptWords,
  sinceWords,
  stoppedDrugs,
  stoppedDrugWords,
  urineWords,
} from "./row-words"
import type { DrugFacts } from "./starting-answers"
import own from "./starting.module.css"

type RowProps = { person: StartingPerson; facts: DrugFacts; chosen: ChosenMonth; group: StartingGroupId }

/** One person: the pressure and how old it is, what is taken and was stopped, what to look at, and heart and kidneys. */
export function PersonRow({ person, facts, chosen, group }: RowProps) {
  return (
    <tr role="row" className={person.is_severe ? styles.severe : undefined}>
      <PersonWho person={person} chosen={chosen} />
      <td role="cell">
        <PersonPressure person={person}>
          {person.bp_age_days === null ? null : <p className={styles.soft}>{ageWords(person.bp_age_days)}</p>}
        </PersonPressure>
      </td>
      <td role="cell">
        <Stops facts={facts} />
        <Drugs person={person} facts={facts} />
      </td>
      <td role="cell">
        <ul className={styles.findings}>
          {findingsWords(person, group).map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </td>
      <td role="cell" className={styles.values}>
        <Values person={person} isRunning={chosen.isRunning} isDietTold={group === "lifestyle-first"} />
      </td>
    </tr>
  )
}

function Stops({ facts }: { facts: DrugFacts }) {
  if (facts.stops.length === 0) return null
  return (
    <div className={own.stops}>
      <p>
        <strong>Stopped</strong>
      </p>
      <ul>
        {stoppedDrugs(facts.stops).map((one) => (
          <li key={`${stoppedDrugWords(one)} ${one.stop.stopped_on}`}>
            {stoppedDrugWords(one)}:{" "}
            <span className={styles.soft}>
              {endWords(one.stop)}; {sinceWords(one.stop)}
            </span>
          </li>
        ))}
      </ul>
    </div>
  )
}

function Drugs({ person, facts }: { person: StartingPerson; facts: DrugFacts }) {
  if (person.classes.length > 0)
    return (
      <PersonDrugs
        classes={person.classes}
        drugs={facts.drugs}
        noteOf={(name) => {
          const kept = keptWords(facts.kept, name)
          return kept === null ? null : (
            <>
              , <strong>{kept}</strong>
            </>
          )
        }}
      />
    )
  const raising = facts.drugs.filter((drug) => drug.class === null)
  return (
    <>
      <p>No pressure drug active</p>
      {raising.length === 0 ? null : (
        <p className={styles.soft}>Raises the pressure: {raising.map(drugWords).join("; ")}</p>
      )}
    </>
  )
}

function Values(props: { person: StartingPerson; isRunning: boolean; isDietTold: boolean }) {
  const { person, isRunning, isDietTold } = props
  const heart = [
    ...(person.heart_failure ? ["heart failure"] : []),
    ...(person.atrial_fibrillation ? ["atrial fibrillation"] : []),
  ]
  return (
    <dl>
      {heart.length === 0 ? null : (
        <PersonValue name="Heart" on={null}>
          {sentenceCase(listed(heart))}
        </PersonValue>
      )}
      <PersonEgfr person={person} />
      <PersonValue name="Urine albumin" on={person.urine_on}>
        {urineWords(person)}
      </PersonValue>
      {isDietTold ? (
        <PersonValue name="Sodium a day" on={person.sodium_on} absent="no record lately">
          {person.sodium_mg === null ? null : milligrams(person.sodium_mg)}
        </PersonValue>
      ) : null}
      {isRunning ? <PersonNextVisit person={person} /> : null}
    </dl>
  )
}
