import { holdsOn } from "../../../lib/domain/clinician-decisions"
import type { ProtectionPerson } from "../../../lib/questions/protection-people"
import { decisionTopicWords } from "../../../lib/speech/decision-words"
import { listName } from "../../../lib/speech/person-name"
import { Decided } from "../decisions/decided"
import { UndoForm } from "../decisions/undo-form"
import { DecideInRow } from "./decide-in-row"
import type { ProtectionDecisions } from "./protection-decisions"
import styles from "./protection.module.css"

/** What was decided about somebody in the list, with what takes it back and what decides. */
export function RowDecision(props: { person: ProtectionPerson; decisions: ProtectionDecisions }) {
  const { person, decisions } = props
  const { months, today, asOf, isOpen } = decisions
  const latest = decisions.byPerson.get(person.public_id) ?? null
  const about = `${decisionTopicWords.ras_blocker}, ${listName(person)}`
  const of = {
    publicId: person.public_id,
    topic: "ras_blocker" as const,
    shownId: latest?.id ?? null,
    about,
    ...{ today, asOf },
  }
  return (
    <>
      {latest === null ? null : (
        <div className={styles.decided}>
          <Decided decision={latest} months={months} today={today} />
          {isOpen && holdsOn(latest, { months, on: today }) ? (
            <div data-act="undo">
              <UndoForm publicId={person.public_id} id={latest.id} about={about} />
            </div>
          ) : null}
        </div>
      )}
      {isOpen ? <DecideInRow of={of} /> : null}
    </>
  )
}
