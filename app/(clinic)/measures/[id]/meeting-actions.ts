"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { z } from "zod"
import { PlainMonth } from "../../../../lib/domain/chart-marks"
import { actionKinds, longestAction, longestOwner } from "../../../../lib/domain/measure-actions"
import { PlainDate, plainToday } from "../../../../lib/domain/plain-date"
import { RowNumber } from "../../../../lib/domain/row-number"
import { TypedText } from "../../../../lib/domain/typed-text"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import { findMeasure } from "../../../../lib/measures/index"
import { store } from "../../../../lib/store/client"
import { addAction, closeAction, reopenAction } from "../../../../lib/store/measure-actions"
import { formField } from "../../../_http/form-field"
import { requireScreenUser } from "../../../_http/require-user"
import { assertSameOrigin } from "../../../_http/same-origin"
import { currentSnapshot } from "../../snapshot"
import { clinicTimeZone } from "../../time-zone"

const MeasureId = z.string().refine((id) => id === dietSodium.id || findMeasure(id) !== undefined)
const Said = TypedText.trim().min(1).max(longestAction)
const Owner = TypedText.trim().max(longestOwner)
const Due = z.literal("").or(PlainDate)
const Ended = z.enum(["done", "dropped"])

/** `saved` counts what was saved, so that the form is empty again after each. */
export type LogAnswer = { problem: string | null; saved: number }

const namesPatient = "It names a patient. The log is read by people who may not see patients."
const notDone = {
  outdated: "It was changed in the meantime. The list shows how it stands now.",
  "not-theirs": "Only the person it was given to, or a clinic lead, closes it or opens it again.",
}

/** Writes down a decision, or an action with who does it and until when. */
export async function writeDown(before: LogAnswer, form: FormData): Promise<LogAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("actions.write")
  const measureId = formField(MeasureId, form.get("measure"))
  const month = formField(PlainMonth, form.get("month"))
  const kind = formField(z.enum(actionKinds), form.get("kind"))
  const text = Said.safeParse(form.get("text"))
  const owner = Owner.safeParse(form.get("owner"))
  const due = Due.safeParse(form.get("due"))
  const now = new Date()
  const told = (problem: string) => ({ ...before, problem })
  const snapshot = await currentSnapshot()
  if (!snapshot?.asOfs.some((day) => day.startsWith(month))) return told("The month is none of those shown.")
  if (!text.success) return told(`What was decided is needed, in up to ${longestAction} characters.`)
  if (!owner.success) return told(`Who does it is a name or a role of up to ${longestOwner} characters.`)
  if (kind === "action" && owner.data === "") return told("An action needs somebody who does it.")
  if (!due.success) return told("The day it is due is no day of the calendar.")
  if (kind === "decision" && due.data !== "") return told("A decision has no day by which it is due.")
  if (due.data !== "" && due.data < plainToday(now, await clinicTimeZone()))
    return told("The day it is due lies in the past.")
  const action = {
    measureId,
    month,
    kind,
    text: text.data,
    owner: owner.data || null,
    dueOn: due.data || null,
  }
  if ((await addAction(store(), { action, caller, now })) === "names-person") return told(namesPatient)
  refresh()
  return { problem: null, saved: before.saved + 1 }
}

/** Ends one as done or dropped, with a note of what came of it. */
export async function endOneOfLog(before: LogAnswer, form: FormData): Promise<LogAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("actions.write")
  const id = formField(RowNumber, form.get("id"))
  const version = formField(RowNumber, form.get("version"))
  const state = formField(Ended, form.get("state"))
  const outcome = TypedText.trim().max(longestAction).safeParse(form.get("outcome"))
  if (!outcome.success) return { ...before, problem: `A note has up to ${longestAction} characters.` }
  const closed = { id, version, caller, now: new Date(), state, outcome: outcome.data || null }
  const answer = await closeAction(store(), closed)
  refresh()
  if (answer === "names-person") return { ...before, problem: namesPatient }
  if (answer !== "closed") return { ...before, problem: notDone[answer] }
  return { problem: null, saved: before.saved + 1 }
}

/** Opens one again that was done or dropped. */
export async function openOneOfLog(before: LogAnswer, form: FormData): Promise<LogAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("actions.write")
  const id = formField(RowNumber, form.get("id"))
  const version = formField(RowNumber, form.get("version"))
  const answer = await reopenAction(store(), { id, version, caller, now: new Date() })
  refresh()
  if (answer !== "reopened") return { ...before, problem: notDone[answer] }
  return { problem: null, saved: before.saved + 1 }
}
