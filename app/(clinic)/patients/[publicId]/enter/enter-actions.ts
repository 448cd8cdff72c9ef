"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { z } from "zod"
import type { Caller } from "../../../../../lib/access/caller"
import { PlainDate } from "../../../../../lib/domain/plain-date"
import { RowNumber } from "../../../../../lib/domain/row-number"
import { enterByHand, withdrawEntry, type EntryAnswer } from "../../../../../lib/jobs/enter-by-hand"
import { startRefresh } from "../../../../../lib/jobs/refresh-process"
import { callerScope } from "../../../../_http/ask"
import { formField } from "../../../../_http/form-field"
import { requireScreenUser } from "../../../../_http/require-user"
import { assertSameOrigin } from "../../../../_http/same-origin"
import { site } from "../../../../_http/site"
import { clinicTimeZone } from "../../../time-zone"
import { dietFields } from "./diet-fields"
import type { EntrySent } from "./entry-sent"
import { readGrid, readLines, type FormRow } from "./read-log"
import { PublicId } from "../search-params"

/** Stores a log of home pressures, all of it or nothing. */
export async function enterLog(before: EntrySent, form: FormData): Promise<EntrySent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("readings.enter")
  const asked = await askedOf(form, caller)
  const typed = typedFields(form, (name) => logField.test(name))
  const last = PlainDate.safeParse(typed["until"] ?? "")
  if (!last.success) return told(before, typed, { until: "is not a day of the calendar" })
  const lines = readLines(typed["lines"] ?? "")
  if (Object.keys(lines.wrong).length > 0) return told(before, typed, lines.wrong)
  const rows = [...readGrid(typed, last.data), ...lines.rows]
  if (rows.length === 0) return problem(before, typed, "No reading is typed yet.")
  if (rows.length > mostRows) return problem(before, typed, `At most ${mostRows} readings at once.`)
  const cells = rows.map((row) => row.cells)
  const answer = await enterByHand(site(), { ...asked, kind: "readings", rows: cells })
  return answered(before, typed, { answer, rows })
}

/** Stores one diet record. */
export async function enterDiet(before: EntrySent, form: FormData): Promise<EntrySent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("readings.enter")
  const asked = await askedOf(form, caller)
  const typed = typedFields(form, (name) => dietFields.some((field) => field.column === name))
  const row: FormRow = { cells: typed, fieldOf: (column) => column ?? "recorded_on", said: "" }
  const answer = await enterByHand(site(), { ...asked, kind: "diet", rows: [typed] })
  return answered(before, typed, { answer, rows: [row] })
}

/** Withdraws what was typed at once; it stays in the history of its rows. */
export async function withdraw(before: EntrySent, form: FormData): Promise<EntrySent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("readings.enter")
  const asked = await askedOf(form, caller)
  const importId = formField(RowNumber, form.get("importId"))
  const answer = await withdrawEntry(site(), { ...asked, importId })
  return answered(before, {}, { answer, rows: [] })
}

/** More than three months of mornings and evenings are an extract's business. */
const mostRows = 400

const logField = /^(until|lines|time\.\d{1,2}|(systolic|diastolic|pulse)\.\d{1,2}\.\d)$/

async function askedOf(form: FormData, caller: Caller) {
  const publicId = formField(PublicId, form.get("publicId"))
  const [scope, timeZone] = [await callerScope(), await clinicTimeZone()]
  return { caller, publicId, scope, timeZone, now: new Date() }
}

function typedFields(form: FormData, isOurs: (name: string) => boolean): Record<string, string> {
  const fields = [...form].filter(([name, value]) => typeof value === "string" && isOurs(name))
  return z.record(z.string(), z.string()).parse(Object.fromEntries(fields))
}

function answered(
  before: EntrySent,
  typed: Record<string, string>,
  { answer, rows }: { answer: EntryAnswer; rows: readonly FormRow[] },
): EntrySent {
  if (answer.is === "gone") return problem(before, typed, "There is no such person or entry here.")
  if (answer.is === "refused") return problem(before, typed, answer.words)
  if (answer.is === "wrong") return told(before, typed, wordsByField(answer.problems, rows))
  startRefresh(site())
  refresh()
  return { wrong: {}, problem: null, saved: before.saved + 1, rows: answer.rows, typed: {} }
}

function wordsByField(
  problems: (EntryAnswer & { is: "wrong" })["problems"],
  rows: readonly FormRow[],
): Record<string, string> {
  const wrong: Record<string, string> = {}
  for (const { row, column, message } of problems) {
    const typed = rows[row]
    const field = typed?.fieldOf(column) ?? "lines"
    const words = `${typed?.said ?? ""}${column ?? "the row"} ${message}`
    const known = wrong[field]
    wrong[field] = known === undefined || known === words ? words : `${known}; ${words}`
  }
  return wrong
}

function told(before: EntrySent, typed: EntrySent["typed"], wrong: EntrySent["wrong"]): EntrySent {
  return { ...before, wrong, typed, problem: "Nothing is saved yet. What is wrong stands beside it." }
}

function problem(before: EntrySent, typed: EntrySent["typed"], words: string): EntrySent {
  return { ...before, wrong: {}, typed, problem: words }
}
