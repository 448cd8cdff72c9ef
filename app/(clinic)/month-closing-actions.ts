"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { z } from "zod"
import { isWhole } from "../../lib/access/scope"
import { PlainDate } from "../../lib/domain/plain-date"
import { RowNumber } from "../../lib/domain/row-number"
import { closeMonth, type ClosingAnswer } from "../../lib/jobs/close-month"
import { startRefresh } from "../../lib/jobs/refresh-process"
import { actorOf } from "../../lib/store/audit-actors"
import { ClosingNote, ReopenReason, reopenMonth } from "../../lib/store/month-closings"
import { callerScope } from "../_http/ask"
import { formField } from "../_http/form-field"
import { requireScreenUser } from "../_http/require-user"
import { assertSameOrigin } from "../_http/same-origin"
import { site } from "../_http/site"

export type MonthAnswer = { problem: string | null }

const partOnly = "This account sees a part of the clinic; a month is closed and opened for the whole."

const problems: Record<Exclude<ClosingAnswer, "closed">, string> = {
  "closed before": "The month has been closed in the meantime.",
  "not complete": "Only a month that is over can be closed.",
  "not of now":
    "The figures shown are not of now: something came in or was changed, and they are computed anew. The month can be closed then.",
}

/** Closes a month with the figures that were on the screen; the snapshot follows. */
export async function closeShownMonth(_before: MonthAnswer, form: FormData): Promise<MonthAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("months.close")
  const asOf = formField(PlainDate, form.get("asOf"))
  const builtAt = formField(z.iso.datetime(), form.get("builtAt"))
  const note = ClosingNote.safeParse(form.get("note"))
  if (!note.success) return { problem: "The note takes at most 500 characters." }
  if (!isWhole(await callerScope())) return { problem: partOnly }
  const here = site()
  const about = { client: here.client, dataDir: here.dataDir, by: actorOf(caller), now: new Date() }
  const answer = await closeMonth({ ...about, asOf, builtAt, note: note.data })
  if (answer !== "closed") return { problem: problems[answer] }
  startRefresh(here)
  refresh()
  return { problem: null }
}

/** Opens a month again; its figures follow today's facts and settings from then on. */
export async function openMonthAgain(_before: MonthAnswer, form: FormData): Promise<MonthAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("months.close")
  const id = formField(RowNumber, form.get("id"))
  const reason = ReopenReason.safeParse(form.get("reason"))
  if (!reason.success) return { problem: "A reason is needed; it stays beside the closing." }
  if (!isWhole(await callerScope())) return { problem: partOnly }
  const here = site()
  const about = { id, reason: reason.data, by: actorOf(caller), now: new Date() }
  if (!(await reopenMonth(here.client, about)))
    return { problem: "The month has been opened in the meantime." }
  startRefresh(here)
  refresh()
  return { problem: null }
}
