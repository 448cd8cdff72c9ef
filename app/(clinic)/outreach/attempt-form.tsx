"use client"

import { useState } from "react"
import { daysAfter } from "../../../lib/domain/day-sums"
import { awaitedDays, contactChannels, contactOutcomes } from "../../../lib/domain/outreach-case"
import { suggestedAgain } from "../../../lib/domain/suggested-again"
import { day } from "../../../lib/speech/format"
import { recordAttempt } from "./case-actions"
import { CaseForm, Field } from "./case-form"
import type { FormCase } from "./case-sent"
import { NoteField } from "./note-field"

/** How somebody was contacted, what came of it and when to try again; a first letter chooses in both lists. */
export function AttemptForm({ of }: { of: FormCase }) {
  const [outcome, setOutcome] = useState("")
  return (
    <CaseForm of={of} action={recordAttempt} verb="Record attempt" kind="primary">
      {(typed) => (
        <>
          <Field label="By">
            <select name="channel" defaultValue={typed["channel"] ?? of.channel ?? "phone"}>
              {contactChannels.map((channel) => (
                <option key={channel}>{channel}</option>
              ))}
            </select>
          </Field>
          <Field label="Outcome">
            <select
              name="outcome"
              required
              defaultValue={typed["outcome"] ?? ""}
              onChange={(event) => setOutcome(event.currentTarget.value)}
            >
              <option value="">Choose</option>
              {contactOutcomes.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          </Field>
          <Field label="Try again on" hint={againHint(outcome, of.today)}>
            <input
              type="date"
              name="againOn"
              min={daysAfter(of.today, 1)}
              max={daysAfter(of.today, 90)}
              defaultValue={typed["againOn"]}
            />
          </Field>
          <NoteField typed={typed} />
        </>
      )}
    </CaseForm>
  )
}

/** What an empty day means after an outcome. */
function againHint(outcome: string, today: string): string {
  const chosen = contactOutcomes.find((one) => one === outcome)
  if (chosen === undefined) return "Left empty, a day that suits the outcome"
  if (chosen === "reached, declined" || chosen === "moved" || chosen === "deceased")
    return "This outcome closes the case"
  if (chosen === "reached, agreed" || chosen === "reached, already done")
    return `Left empty, the result is awaited until ${day(daysAfter(today, awaitedDays))}`
  const again = suggestedAgain(chosen, today)
  return again === null ? "Left empty, the person stays on the list" : `Left empty, ${day(again)}`
}
