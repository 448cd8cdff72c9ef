import "server-only"
import { refresh } from "next/cache"
import { z } from "zod"
import type { Caller } from "../../../lib/access/caller"
import { plainToday } from "../../../lib/domain/plain-date"
import { RowNumber } from "../../../lib/domain/row-number"
import { TypedText } from "../../../lib/domain/typed-text"
import type { Refusal } from "../../../lib/outreach/case-events"
import { standingOf } from "../../../lib/outreach/case-standing"
import { workOnCase } from "../../../lib/outreach/work-on-case"
import { conflictWords, refusalWords, standingWords } from "../../../lib/speech/case-words"
import { store } from "../../../lib/store/client"
import type { CaseAnswer } from "../../../lib/store/outreach-cases"
import { callerScope } from "../../_http/ask"
import { formField } from "../../_http/form-field"
import { clinicTimeZone } from "../time-zone"
import type { CaseSent } from "./case-sent"

export const longestNote = 1000

type Work = Parameters<typeof workOnCase>[1]

/** The case that a form is about, and the version its page showed. */
export function whichCase(form: FormData): { id: number; version: number } {
  return { id: formField(RowNumber, form.get("id")), version: formField(RowNumber, form.get("version")) }
}

/** The note beside an act; undefined when it is longer than a note may be. */
export function noteOf(form: FormData): string | null | undefined {
  const note = TypedText.trim()
    .max(longestNote)
    .safeParse(form.get("note") ?? "")
  return note.success ? note.data || null : undefined
}

/** The clinic's day today. */
export async function clinicToday(now: Date): Promise<string> {
  return plainToday(now, await clinicTimeZone())
}

/** Does one act and says what came of it: done, refused with the reason, or changed by somebody else meanwhile. */
export async function doWork(
  before: CaseSent,
  form: FormData,
  done: { caller: Caller; act: Work["act"]; on: string; now: Date },
): Promise<CaseSent> {
  const { caller, act, on, now } = done
  const note = noteOf(form)
  if (note === undefined) return problem(before, form, `A note has up to ${longestNote} characters.`)
  const scope = await callerScope()
  const answer = await workOnCase(store(), { ...whichCase(form), caller, scope, now, on, act, note })
  if (answer.is !== "done") {
    const told = problem(before, form, await answerWords(answer, on))
    // The screen stays as it is: brought up to date it may be without the row, and what was typed would be gone with it.
    return answer.is === "outdated" ? { ...told, version: answer.version } : told
  }
  refresh()
  return { problem: null, saved: before.saved + 1, version: answer.version, typed: {} }
}

/** What was typed goes back with the words, for a form that was sent without scripts. */
export function problem(before: CaseSent, form: FormData, words: string): CaseSent {
  const typed = [...form].filter(([name, value]) => typeof value === "string" && !name.startsWith("$"))
  return {
    ...before,
    problem: words,
    typed: z.record(z.string(), z.string()).parse(Object.fromEntries(typed)),
  }
}

/** The words for what was not done. */
export async function answerWords(
  answer: Exclude<CaseAnswer<Refusal>, { is: "done" }>,
  on: string,
): Promise<string> {
  if (answer.is === "gone") return "There is no such case here."
  if (answer.is === "names-person") return "The note names a patient. A note does without names."
  if (answer.is === "refused") return refusalWords(answer.why)
  const now = standingWords(standingOf(answer.case, on))
  return `${conflictWords(answer.last, await clinicTimeZone())} Nothing was recorded. It is now: ${now}. What was typed is kept; sending it again records it.`
}
