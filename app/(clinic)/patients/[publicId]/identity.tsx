import Link from "next/link"
import { day, dayInFull } from "../../../../lib/speech/format"
import { MonthList, type MonthChoice } from "../../../_ui/month-list"
import { sexWords } from "../../../_ui/sex-words"
import type { EvidenceFact } from "../../../../lib/questions/evidence-fact"
import type { ListedAllergy } from "../../../../lib/questions/listed-allergies"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"
import type { ChosenMonth } from "../../months"
import { Allergies } from "./allergies"
import { factSources } from "./fact-sources"
import styles from "./identity.module.css"
import { stageWords } from "./person-words"
import { ProblemList } from "./problem-list"
import { sourceHref } from "./source-links"
import { Told, type ToldFact } from "./told-fact"

/** Who this is, and the day the screen speaks of. */
export function Identity(props: {
  person: PatientIdentity
  facts: readonly EvidenceFact[]
  allergies: readonly ListedAllergy[]
  chosen: ChosenMonth
  months: MonthChoice[]
  /** Whether the month shown is closed, and so stands as it was known then. */
  isClosed: boolean
  /** Where the record as a whole is handed out, for who may. */
  recordHref: string | null
  /** Where home pressures and diet records are typed, for who may. */
  enterHref: string | null
  /** Who opened this record and when, for who may read the audit log. */
  auditHref: string | null
}) {
  const { person, chosen, enterHref, recordHref, auditHref } = props
  const name = [person.given_name, person.family_name].filter(Boolean).join(" ")
  const told = [
    { words: `${ageWords(person)}, ${sexWords(person.sex)}`, sources: [person.source] },
    {
      words: `${person.clinician_name ?? "no clinician assigned"}, ${person.site ?? "no site assigned"}`,
      sources: [person.source],
    },
    { words: stageWords(person), ...stageRows(person, props.facts) },
    ...(chosen.isRunning ? [nextVisit(person)] : []),
    { words: `number ${person.patient_id}`, sources: [person.source] },
  ]
  return (
    <header className={styles.identity}>
      <div className={styles.who}>
        <h1>{name === "" ? "Name not given" : name}</h1>
        <ul className={styles.facts}>
          {told.map((one) => (
            <li key={one.words}>
              <Told {...one} />
            </li>
          ))}
        </ul>
      </div>
      <div className={styles.more}>
        <div>
          <ProblemList person={person} facts={props.facts} /> <Allergies allergies={props.allergies} />{" "}
          <Interpreter person={person} />
        </div>
        <div className={styles.ways}>
          {enterHref === null ? null : (
            <Link href={enterHref} prefetch={false} className={styles.record}>
              Enter readings
            </Link>
          )}
          {recordHref === null ? null : (
            <Link href={recordHref} prefetch={false} className={styles.record}>
              The record as a whole
            </Link>
          )}
          {auditHref === null ? null : (
            <Link href={auditHref} prefetch={false} className={styles.record}>
              Who looked at it
            </Link>
          )}
          <details className={styles.month}>
            <summary>as of {dayInFull(chosen.asOf)}</summary>
            <div className={styles.months}>
              <MonthList choices={props.months} chosen={chosen.month} />
            </div>
          </details>
        </div>
        <p className={styles.onPaper}>On {dayInFull(chosen.asOf)}</p>
      </div>
      <OutsidePanel person={person} asOf={chosen.asOf} />
      {props.isClosed ? (
        <p className={styles.closed}>
          This month is closed: how this person stood is told as it was known at the closing. The line of time
          and the source rows are those of the records as they are today.
        </p>
      ) : null}
    </header>
  )
}

/** A person outside the panel is shown all the same, with the reason. */
function OutsidePanel({ person, asOf }: { person: PatientIdentity; asOf: string }) {
  if (person.in_panel === true) return null
  const reason = reasonOf(person)
  const words = {
    left: `left on ${day(person.left_on ?? asOf)}${person.left_reason ? ` (${person.left_reason})` : ""}`,
    died: `died on ${day(person.died_on ?? asOf)}`,
    "under 18": "is under 18",
    "no visit": person.last_visit_on
      ? `has had no visit in the months that the panel asks for; the last was on ${day(person.last_visit_on)}`
      : "has had no visit",
    unregistered: `was not registered before ${day(person.registered_on)}`,
  }[reason]
  const source = reason === "no visit" ? (person.last_visit_source ?? person.source) : person.source
  return (
    <p className={styles.outside}>
      <strong>Not in the panel on {dayInFull(asOf)}:</strong> this person{" "}
      <a href={sourceHref(source)}>{words}</a>. The measures ask only people in the panel.{" "}
      <Link href="/patients">The panel</Link>
    </p>
  )
}

function reasonOf(person: PatientIdentity) {
  const reason = person.panel_reason
  if (reason === "left" || reason === "died" || reason === "under 18" || reason === "no visit") return reason
  return "unregistered"
}

function ageWords(person: PatientIdentity): string {
  if (person.panel_reason === "died") return `born ${day(person.birth_date)}, died`
  return person.age_years === null ? `born ${day(person.birth_date)}` : String(person.age_years)
}

/** What the words of the stage rest on: dialysis or a transplant on record, the results, or a code where there are none. */
function stageRows(person: PatientIdentity, facts: readonly EvidenceFact[]): Omit<ToldFact, "words"> {
  const problem = (condition: string) => factSources(facts, ["problem"], condition)
  if (person.on_dialysis)
    return { sources: [...problem("dialysis"), ...factSources(facts, ["dialysis visit"])] }
  const results = factSources(facts, ["egfr", "egfr run", "urine", "confirming urine"])
  if (person.transplant) return { sources: [...problem("transplant"), ...results] }
  if (results.length > 0) return { sources: results, section: "kidney" }
  return { sources: [...problem("ckd"), ...problem("ckd_stage_5")] }
}

function nextVisit(person: PatientIdentity): ToldFact {
  const { next_visit_on: on, next_visit_source: source } = person
  return {
    words: on === null ? "no visit booked" : `next visit ${day(on)}`,
    sources: source === null ? [] : [source],
  }
}

function Interpreter({ person }: { person: PatientIdentity }) {
  if (!person.interpreter_needed) return null
  return (
    <span className={styles.problem}>
      <a href={sourceHref(person.source)}>
        Interpreter needed{person.language ? ` (${person.language})` : ""}
      </a>
      .
    </span>
  )
}
