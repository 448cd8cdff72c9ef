import type { ReactNode } from "react"
import type { CaseWorker } from "../../../lib/store/case-workers"
import { AttemptForm } from "./attempt-form"
import {
  AcknowledgeForm,
  AssignForm,
  CloseForm,
  NoteForm,
  ReopenForm,
  SnoozeForm,
  TakeBackForm,
  TakeForm,
} from "./case-form-list"
import type { FormCase } from "./case-sent"
import styles from "./case-forms.module.css"

/**
 * Everything that can be done with a case at present, each behind its word; one is open at a time. Of somebody kept from
 * contact a note is all, and what is urgent is acknowledged before anybody calls. `attempt-12`, `snooze-12`, `close-12` and `note-12` name the parts of case 12.
 */
export function CaseForms({ of, workers }: { of: FormCase; workers: readonly CaseWorker[] }) {
  const canContact = !of.isClosed && !of.isKept
  return (
    <div className={styles.forms}>
      {of.isUrgent && of.mayAcknowledge && !of.isClosed ? (
        <Part of={of} act="acknowledge" word="Acknowledge">
          <AcknowledgeForm of={of} />
        </Part>
      ) : null}
      {canContact && !of.isUrgent ? (
        <>
          <Part of={of} act="attempt" word="Log attempt">
            <AttemptForm of={of} />
          </Part>
          <Part of={of} act="snooze" word="Snooze">
            <SnoozeForm of={of} />
          </Part>
        </>
      ) : null}
      {of.isClosed ? (
        <Part of={of} act="reopen" word="Open again">
          <ReopenForm of={of} />
        </Part>
      ) : (
        <>
          <Part of={of} act="close" word="Close">
            <CloseForm of={of} />
          </Part>
          {canContact && of.assignedTo === null ? <TakeForm of={of} /> : null}
          <Part of={of} act="assign" word="Assign">
            <AssignForm of={of} workers={workers} />
          </Part>
        </>
      )}
      <Part of={of} act="note" word="Note">
        <NoteForm of={of} />
      </Part>
      {of.canTakeBack ? <TakeBackForm of={of} /> : null}
    </div>
  )
}

function Part(props: { of: FormCase; act: string; word: string; children: ReactNode }) {
  const { of, act, word, children } = props
  return (
    <details id={`${act}-${of.id}`} name={`case-${of.id}`} className={styles.part} data-act={act}>
      <summary>
        {word}
        <span className="visually-hidden">: {of.name}</span>
      </summary>
      {children}
    </details>
  )
}
