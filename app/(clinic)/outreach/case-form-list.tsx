"use client"

import { daysAfter } from "../../../lib/domain/day-sums"
import { closeReasons } from "../../../lib/domain/outreach-case"
import type { CaseWorker } from "../../../lib/store/case-workers"
import {
  acknowledgeCase,
  assignCase,
  closeCase,
  noteOnCase,
  reopenCase,
  snoozeCase,
  takeBack,
  takeCase,
} from "./case-actions"
import { CaseForm, Field } from "./case-form"
import type { FormCase } from "./case-sent"
import { NoteField } from "./note-field"

type Props = { of: FormCase }

export function SnoozeForm({ of }: Props) {
  return (
    <CaseForm of={of} action={snoozeCase} verb="Snooze">
      {(typed) => (
        <>
          <Field label="Until">
            <input
              type="date"
              name="until"
              required
              min={daysAfter(of.today, 1)}
              max={daysAfter(of.today, 90)}
              defaultValue={typed["until"]}
            />
          </Field>
          <NoteField typed={typed} />
        </>
      )}
    </CaseForm>
  )
}

export function CloseForm({ of }: Props) {
  return (
    <CaseForm of={of} action={closeCase} verb="Close">
      {(typed) => (
        <>
          <Field label="Why">
            <select name="reason" required defaultValue={typed["reason"] ?? ""}>
              <option value="">Choose</option>
              {closeReasons.map((reason) => (
                <option key={reason}>{reason}</option>
              ))}
            </select>
          </Field>
          <NoteField typed={typed} />
        </>
      )}
    </CaseForm>
  )
}

export function AssignForm({ of, workers }: Props & { workers: readonly CaseWorker[] }) {
  return (
    <CaseForm of={of} action={assignCase} verb="Assign">
      {(typed) => (
        <Field label="To">
          <select name="to" defaultValue={typed["to"] ?? of.assignedTo ?? ""}>
            <option value="">nobody</option>
            {workers.map((worker) => (
              <option key={worker.id} value={worker.id}>
                {worker.name}
              </option>
            ))}
          </select>
        </Field>
      )}
    </CaseForm>
  )
}

export function NoteForm({ of }: Props) {
  return (
    <CaseForm of={of} action={noteOnCase} verb="Write note">
      {(typed) => <NoteField typed={typed} isNeeded />}
    </CaseForm>
  )
}

/** What is urgent is for a clinician; whoever else acknowledges it says who was told. */
export function AcknowledgeForm({ of }: Props) {
  return (
    <CaseForm of={of} action={acknowledgeCase} verb="Acknowledge" kind="primary">
      {(typed) =>
        of.mustSayWhoWasTold ? (
          <NoteField typed={typed} label="Clinician who was told" isNeeded />
        ) : (
          <NoteField typed={typed} label="What is done about it" />
        )
      }
    </CaseForm>
  )
}

export function ReopenForm({ of }: Props) {
  return (
    <CaseForm of={of} action={reopenCase} verb="Open again">
      {(typed) => <NoteField typed={typed} />}
    </CaseForm>
  )
}

export function TakeForm({ of }: Props) {
  return <CaseForm of={of} action={takeCase} verb="Take" />
}

export function TakeBackForm({ of }: Props) {
  return <CaseForm of={of} action={takeBack} verb="Take back" />
}
