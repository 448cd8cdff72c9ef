"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { z } from "zod"
import {
  decisionTopics,
  longestNote,
  NewDecision,
  type DecisionTopic,
} from "../../../lib/domain/clinician-decisions"
import { PlainDate, plainToday } from "../../../lib/domain/plain-date"
import { RowNumber } from "../../../lib/domain/row-number"
import { TypedText } from "../../../lib/domain/typed-text"
import { startRefresh } from "../../../lib/jobs/refresh-process"
import { store } from "../../../lib/store/client"
import { listDecisions, makeDecision, undoDecision } from "../../../lib/store/clinician-decisions"
import { callerScope } from "../../_http/ask"
import { formField } from "../../_http/form-field"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { site } from "../../_http/site"
import { clinicTimeZone } from "../time-zone"
import { problem, refused } from "./decision-answers"
import type { DecisionSent } from "./decision-sent"
import { mayDecide } from "./may-decide"

const PublicId = z.uuid()
const Topic = z.enum(decisionTopics)
const ShownId = z.literal("").or(RowNumber)
const Until = z.literal("").or(PlainDate)
const Note = TypedText.trim().max(longestNote)

/** Records what a clinician decided about a person; the figures follow. */
export async function decide(before: DecisionSent, form: FormData): Promise<DecisionSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("decisions.make")
  const publicId = formField(PublicId, form.get("publicId"))
  const topic = formField(Topic, form.get("topic"))
  const shown = formField(ShownId, form.get("shown") ?? "")
  const told = (field: DecisionSent["field"], words: string) => problem(before, form, { field, words })
  if (!mayDecide(caller, topic)) return told(null, notTheirs)
  const read = readDecision(form, topic)
  if (!read.ok) return told(read.field, read.words)
  const about = { scope: await callerScope(), publicId }
  const answer = await makeDecision(store(), {
    ...about,
    ...(await askedBy(caller)),
    ...{ decision: read.decision, shownId: shown === "" ? null : shown },
  })
  if (answer.is !== "done") return refused(before, form, { answer, about: { ...about, topic } })
  startRefresh(site())
  refresh()
  return { problem: null, field: null, saved: before.saved + 1, shownId: undefined, typed: {} }
}

/** Takes a decision back; it stays in the history. */
export async function undo(before: DecisionSent, form: FormData): Promise<DecisionSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("decisions.make")
  const publicId = formField(PublicId, form.get("publicId"))
  const id = formField(RowNumber, form.get("id"))
  const told = (words: string) => problem(before, form, { field: null, words })
  const about = { scope: await callerScope(), publicId }
  const one = (await listDecisions(store(), about)).find((decision) => decision.id === id)
  if (one === undefined) return told("There is no such decision here.")
  if (!mayDecide(caller, one.topic)) return told(notTheirs)
  const answer = await undoDecision(store(), { ...about, ...(await askedBy(caller)), id })
  if (answer.is !== "done") return told("It was taken back or replaced meanwhile.")
  startRefresh(site())
  refresh()
  return { problem: null, field: null, saved: before.saved + 1, shownId: undefined, typed: {} }
}

type ReadDecision =
  { ok: true; decision: NewDecision } | { ok: false; field: DecisionSent["field"]; words: string }

function readDecision(form: FormData, topic: DecisionTopic): ReadDecision {
  const until = Until.safeParse(form.get("until") ?? "")
  const note = Note.safeParse(form.get("note") ?? "")
  if (!until.success) return { ok: false, field: "until", words: "The day is no day of the calendar." }
  if (!note.success) return { ok: false, field: "note", words: `A note has up to ${longestNote} characters.` }
  const [kind, reason] = String(form.get("why") ?? "").split("|")
  const decision = NewDecision.safeParse({
    ...{ topic, kind, reason, note: note.data || null, endsOn: until.data || null },
  })
  if (!decision.success) return { ok: false, field: "why", words: "What was decided is needed." }
  return { ok: true, decision: decision.data }
}

const notTheirs = "This account does not decide about this."

async function askedBy(caller: Awaited<ReturnType<typeof requireScreenUser>>) {
  const now = new Date()
  return { caller, now, on: plainToday(now, await clinicTimeZone()) }
}
