"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { z } from "zod"
import { RowNumber } from "../../../../lib/domain/row-number"
import { suggestedAgain } from "../../../../lib/domain/suggested-again"
import { recordLetters, type LettersRecorded } from "../../../../lib/outreach/record-letters"
import { refusalWords } from "../../../../lib/speech/case-words"
import { fullName } from "../../../../lib/speech/person-name"
import { casesByNumber } from "../../../../lib/store/case-list"
import { store } from "../../../../lib/store/client"
import { callerScope, snapshotMeta } from "../../../_http/ask"
import { formField } from "../../../_http/form-field"
import { recorded } from "../../../_http/recorded"
import { requireScreenUser } from "../../../_http/require-user"
import { assertSameOrigin } from "../../../_http/same-origin"
import { clinicToday } from "../case-answers"
import { rowsWithPeople } from "../rows-with-people"
import type { LettersSent } from "./letters-sent"
import { mostChosen } from "./search-params"

/** A case and the version that was shown, "12.3". */
const Letter = z
  .string()
  .transform((text): unknown => text.split("."))
  .pipe(z.tuple([RowNumber, RowNumber]))
  .transform(([id, version]) => ({ id, version }))

const Letters = z.array(Letter).max(mostChosen)

/** Records the chosen letters as sent, which the clinic did; whoever changed since the page was shown is named and left. */
export async function recordSent(_before: LettersSent, form: FormData): Promise<LettersSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const letters = formField(Letters, form.getAll("letter"))
  if (letters.length === 0) return { ...nobody, problem: "Nobody is chosen." }
  const now = new Date()
  const [on, scope] = await Promise.all([clinicToday(now), callerScope()])
  const { sent, left } = await recordLetters(store(), { caller, scope, now, on, letters })
  const cases = await casesByNumber(store(), { scope, ids: letters.map((one) => one.id) })
  if (sent.length > 0) {
    const people = cases.filter((one) => sent.includes(one.id)).map((one) => one.public_id)
    await recorded(caller, { action: "letters.sent", people, detail: { on } })
  }
  refresh()
  const named = await namesOf(cases.filter((one) => left.some(({ id }) => id === one.id)))
  return {
    ...{ problem: null, sent: sent.length, againOn: suggestedAgain("letter sent", on) },
    left: left.map((one) => ({ id: one.id, name: named.get(one.id) ?? "Somebody", why: whyLeft(one) })),
  }
}

const nobody = { sent: 0, againOn: null, left: [] }

async function namesOf(cases: Parameters<typeof rowsWithPeople>[0]): Promise<Map<number, string>> {
  if (cases.length === 0) return new Map()
  const rows = await rowsWithPeople(cases, await snapshotMeta())
  return new Map(rows.map(({ one, person }) => [one.id, fullName(person)]))
}

function whyLeft({ answer }: LettersRecorded["left"][number]): string {
  if (answer.is === "outdated") return "The case changed while this page was open."
  if (answer.is === "refused") return refusalWords(answer.why)
  return "There is no such case here."
}
