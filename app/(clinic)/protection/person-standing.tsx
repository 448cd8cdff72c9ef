import type { ProtectionPerson } from "../../../lib/questions/protection-people"
import styles from "../people-list.module.css"
import type { ProtectionFacts } from "./protection-answers"
import { reasonWords, sourceWords, stopWords } from "./row-words"

type StandingProps = {
  person: ProtectionPerson
  facts: ProtectionFacts
  /** Whether the decision stands beside, with its reason and who made it. */
  isDecidedNow: boolean
}

const headings: Readonly<Record<ProtectionPerson["group"], string>> = {
  "never-tried": "Never tried",
  stopped: "Stopped",
  "raised-once": "Raised once: repeat the urine first",
  "documented-reason": "Documented reason",
}

/** Why somebody takes neither an ACE inhibitor nor an ARB, and what published guidance says that concerns them. */
export function PersonStanding({ person, facts, isDecidedNow }: StandingProps) {
  const reasons = facts.reasons.filter((one) => one.reason !== "decision" || !isDecidedNow)
  return (
    <>
      <p>
        <strong>{headings[person.group]}</strong>
      </p>
      {reasons.map((one) => (
        <p key={one.reason}>{reasonWords(one)}</p>
      ))}
      {facts.stops.flatMap(stopWords).map((words) => (
        <p key={words}>{words}</p>
      ))}
      <ul className={styles.findings}>
        {facts.considerations.map((one) => (
          <li key={one.statement}>
            {one.statement} <span className={styles.soft}>{sourceWords(one)}</span>
          </li>
        ))}
      </ul>
    </>
  )
}
