import { day, oneDecimal, pressure, sentenceCase } from "../../../lib/speech/format"
import { allergyWords, shortAllergyWords } from "../../../lib/speech/allergy-words"
import type { ListedAllergy } from "../../../lib/questions/listed-allergies"
import type { ProtectionPerson } from "../../../lib/questions/protection-people"
import { PressureMark } from "../../_ui/pressure-mark"
import type { ChosenMonth } from "../months"
import styles from "../people-list.module.css"
import { PersonDrugs } from "../person-drugs"
import { PersonValue } from "../person-value"
import { PersonEgfr, PersonPotassium } from "../person-values"
import { PersonWho } from "../person-who"
import { PersonStanding } from "./person-standing"
import type { ProtectionFacts } from "./protection-answers"
import type { ProtectionDecisions } from "./protection-decisions"
import { RowDecision } from "./row-decision"
import { conditionWords, urineWords } from "./row-words"

type RowProps = {
  person: ProtectionPerson
  facts: ProtectionFacts
  decisions: ProtectionDecisions | null
  chosen: ChosenMonth
}

/** One person: why none is taken, the kidneys, what keeps a start back, what else is taken and had. */
export function PersonRow({ person, facts, decisions, chosen }: RowProps) {
  return (
    <tr role="row" data-row="">
      <PersonWho person={person} chosen={chosen}>
        {chosen.isRunning ? (
          <p className={styles.soft}>
            next visit {person.next_visit_on === null ? "not booked" : day(person.next_visit_on)}
          </p>
        ) : null}
      </PersonWho>
      <td role="cell">
        <PersonStanding
          person={person}
          facts={facts}
          isDecidedNow={decisions?.byPerson.has(person.public_id) ?? false}
        />
        {decisions === null ? null : <RowDecision person={person} decisions={decisions} />}
      </td>
      <td role="cell" className={styles.values}>
        <Kidney person={person} facts={facts} />
      </td>
      <td role="cell" className={styles.values}>
        <Limits person={person} />
      </td>
      <td role="cell">
        <Else person={person} facts={facts} />
      </td>
    </tr>
  )
}

function Kidney({ person, facts }: { person: ProtectionPerson; facts: ProtectionFacts }) {
  const { slope } = person
  return (
    <dl>
      <div>
        <dt>Urine, latest first</dt>
        {facts.urine.map((point, place) => (
          <dd key={place}>
            {urineWords(point)}, <span className={styles.soft}>{day(point.day)}</span>
          </dd>
        ))}
      </div>
      <PersonEgfr person={person} />
      <PersonValue name="Slope over 24 months" on={null} absent="too few results">
        {slope === null ? null : `${oneDecimal(slope)} a year`}
      </PersonValue>
    </dl>
  )
}

function Limits({ person }: { person: ProtectionPerson }) {
  const { systolic, diastolic, bp_source: source } = person
  const isMeasured = systolic !== null && diastolic !== null && source !== null
  return (
    <dl>
      <PersonPotassium person={person} />
      <PersonValue name="Pressure" on={person.bp_on} absent="not measured">
        {isMeasured ? (
          <>
            {pressure(systolic, diastolic)} <PressureMark source={source} />
          </>
        ) : null}
      </PersonValue>
    </dl>
  )
}

function Else({ person, facts }: { person: ProtectionPerson; facts: ProtectionFacts }) {
  const beside = [
    { words: "SGLT2 inhibitor", isTaken: person.on_sglt2_inhibitor },
    { words: "finerenone", isTaken: person.on_finerenone },
  ].filter(({ isTaken }) => isTaken)
  return (
    <>
      <PersonDrugs classes={person.classes} drugs={facts.drugs} />
      {beside.map(({ words }) => (
        <p key={words}>{sentenceCase(words)}</p>
      ))}
      <p>{conditionWords(person)}</p>
      <Allergies allergies={facts.allergies} />
    </>
  )
}

/** Those that bear on an ACE inhibitor or ARB stand out; that there is none is said. */
function Allergies({ allergies }: { allergies: readonly ListedAllergy[] }) {
  const others = allergies.filter((one) => !one.concerns_ras)
  return (
    <>
      {others.length === allergies.length ? (
        <p className={styles.soft}>No reaction to an ACE inhibitor or ARB on record</p>
      ) : null}
      {allergies
        .filter((one) => one.concerns_ras)
        .map((one) => (
          <p key={allergyWords(one)}>
            <strong>{allergyWords(one)}</strong>
          </p>
        ))}
      {others.length === 0 ? null : (
        <p className={styles.soft}>Other reactions: {others.map(shortAllergyWords).join(", ")}</p>
      )}
    </>
  )
}
