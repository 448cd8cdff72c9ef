"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { may } from "../../../lib/access/permissions"
import { closeReasons, contactChannels, contactOutcomes } from "../../../lib/domain/outreach-case"
import { PlainDate } from "../../../lib/domain/plain-date"
import { suggestedAgain } from "../../../lib/domain/suggested-again"
import { takeNext } from "../../../lib/outreach/work-on-case"
import { store } from "../../../lib/store/client"
import { caseWorkers } from "../../../lib/store/case-workers"
import { publicIdOfCase } from "../../../lib/store/one-case"
import { callerScope } from "../../_http/ask"
import { formField } from "../../_http/form-field"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { answerWords, clinicToday, doWork, noteOf, problem } from "./case-answers"
import type { CaseSent } from "./case-sent"

const Day = z.literal("").or(PlainDate)

/** Gives the case to somebody who may work on it, or to nobody. */
export async function assignCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const to = formField(z.literal("").or(z.uuid()), form.get("to"))
  const workers = await caseWorkers(store(), { isDemo: caller.isDemo })
  if (to !== "" && !workers.some((one) => one.id === to))
    return problem(before, form, "This account does not work on cases.")
  const now = new Date()
  const act = { kind: "assign", to: to || null } as const
  return doWork(before, form, { caller, act, now, on: await clinicToday(now) })
}

/** Takes the case for oneself. */
export async function takeCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const now = new Date()
  return doWork(before, form, { caller, act: { kind: "take" }, now, on: await clinicToday(now) })
}

/** Takes the first person in the order whom nobody has, and opens their page. */
export async function takeNextCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  formField(z.literal("yes"), form.get("next"))
  const now = new Date()
  const on = await clinicToday(now)
  const scope = await callerScope()
  const answer = await takeNext(store(), { caller, scope, now, on })
  if (answer === null) return problem(before, form, "Nobody is left to take: everybody is somebody's.")
  if (answer.is !== "done") return problem(before, form, await answerWords(answer, on))
  redirect(`/outreach/people/${await publicIdOfCase(store(), { scope, id: answer.id })}`)
}

/** Records an attempt. Without a day the one suggested after its outcome is taken. */
export async function recordAttempt(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const channel = z.enum(contactChannels).safeParse(form.get("channel"))
  const outcome = z.enum(contactOutcomes).safeParse(form.get("outcome"))
  const again = Day.safeParse(form.get("againOn") ?? "")
  if (!channel.success) return problem(before, form, "How the person was contacted is needed.")
  if (!outcome.success) return problem(before, form, "What came of it is needed.")
  if (!again.success) return problem(before, form, "The day to try again is no day of the calendar.")
  const now = new Date()
  const on = await clinicToday(now)
  const againOn = again.data || suggestedAgain(outcome.data, on)
  const act = { kind: "attempt", channel: channel.data, outcome: outcome.data, againOn } as const
  return doWork(before, form, { caller, act, now, on })
}

/** Leaves the person alone until a day. */
export async function snoozeCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const until = PlainDate.safeParse(form.get("until"))
  if (!until.success) return problem(before, form, "A day of the calendar is needed.")
  const now = new Date()
  const act = { kind: "snooze", until: until.data } as const
  return doWork(before, form, { caller, act, now, on: await clinicToday(now) })
}

/** Closes the case with a reason. */
export async function closeCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const reason = z.enum(closeReasons).safeParse(form.get("reason"))
  if (!reason.success) return problem(before, form, "Why it is closed is needed.")
  const now = new Date()
  const act = { kind: "close", reason: reason.data } as const
  return doWork(before, form, { caller, act, now, on: await clinicToday(now) })
}

/** Writes a note, which is possible whatever the state of the case. */
export async function noteOnCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  if (noteOf(form) === null) return problem(before, form, "The note is empty.")
  const now = new Date()
  return doWork(before, form, { caller, act: { kind: "note" }, now, on: await clinicToday(now) })
}

/** Opens a closed case again. */
export async function reopenCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const now = new Date()
  return doWork(before, form, { caller, act: { kind: "reopen" }, now, on: await clinicToday(now) })
}

/** Acknowledges what is urgent. Who does not treat says which clinician was told. */
export async function acknowledgeCase(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("urgent.acknowledge")
  if (noteOf(form) === null && !may(caller, "urgent.judge"))
    return problem(before, form, "Which clinician was told is needed.")
  const now = new Date()
  return doWork(before, form, { caller, act: { kind: "acknowledge" }, now, on: await clinicToday(now) })
}

/** Takes back one's own last act of today; the case is as before, and both lines stay. */
export async function takeBack(before: CaseSent, form: FormData): Promise<CaseSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const now = new Date()
  return doWork(before, form, { caller, act: { kind: "take back" }, now, on: await clinicToday(now) })
}
