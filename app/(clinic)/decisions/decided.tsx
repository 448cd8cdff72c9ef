import { holdsUntil, type ClinicianDecision } from "../../../lib/domain/clinician-decisions"
import { decidedWords } from "../../../lib/speech/decision-words"
import { day } from "../../../lib/speech/format"
import styles from "./decided.module.css"

/** One decision: what and why, the note, who made it and when, and how long it holds or how it ended. */
export function Decided(props: { decision: ClinicianDecision; months: number; today: string }) {
  const { decision, months, today } = props
  return (
    <>
      <p>{decidedWords(decision)}</p>
      {decision.note === null ? null : <p className={styles.note}>“{decision.note}”</p>}
      <p className={styles.facts}>
        {decision.madeBy}, {day(decision.madeOn)}; {endWords(decision, months, today)}.
      </p>
    </>
  )
}

function endWords(decision: ClinicianDecision, months: number, today: string): string {
  const { undoneOn, undoneBy, replacedById } = decision
  if (undoneOn !== null) {
    const did = replacedById === null ? "taken back" : "replaced"
    return `${did} by ${undoneBy ?? "nobody known"}, ${day(undoneOn)}`
  }
  const until = holdsUntil(decision, months)
  if (until === null) return "until it is replaced or taken back"
  return until <= today ? `ended ${day(until)}` : `holds until ${day(until)}`
}
