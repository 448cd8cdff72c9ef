"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { languageTag, LetterTexts, letterLimits } from "../../../../lib/domain/letter-template"
import { letterProblems } from "../../../../lib/letters/letter-problems"
import { store } from "../../../../lib/store/client"
import { writeLetterTemplate } from "../../../../lib/store/letter-templates"
import { formField } from "../../../_http/form-field"
import { requireScreenUser } from "../../../_http/require-user"
import { assertSameOrigin } from "../../../_http/same-origin"
import { inventedLetter } from "./invented-letter"
import { letterSetting } from "./letter-answers"
import type { LetterSent } from "./letter-sent"
import { lettersHref } from "./search-params"

const Language = z.string().transform(languageTag).pipe(z.string())
const Version = z.coerce.number().int().nonnegative().max(2_000_000_000)
const Wanted = z.enum(["save", "preview", "withdraw"])
const withdrawn: LetterTexts = { letterhead: "", subject: "", body: "", closing: "", ownWords: "" }

/** Shows what is typed with an invented person, keeps it as the clinic's letter of a language, or withdraws that. */
export async function writeLetter(before: LetterSent, form: FormData): Promise<LetterSent> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("settings.change")
  const language = formField(Language, form.get("language"))
  const shown = formField(Version, form.get("version"))
  const wanted = formField(Wanted, form.get("do"))
  const given = Object.fromEntries(Object.keys(letterLimits).map((part) => [part, form.get(part) ?? ""]))
  const read = LetterTexts.safeParse(given)
  if (wanted !== "withdraw" && !read.success)
    return { ...before, ...told("A part is too long, or holds a sign that nobody can read.") }
  const texts = wanted === "withdraw" || !read.success ? withdrawn : read.data
  const problems = wanted === "withdraw" ? [] : letterProblems(texts)
  if (problems.length > 0) return { problem: null, problems, preview: null, typed: texts }
  const now = new Date()
  if (wanted === "preview") {
    const preview = inventedLetter({ language, ...texts }, await letterSetting(now))
    return { problem: null, problems, preview, typed: texts }
  }
  const answer = await writeLetterTemplate(store(), { texts, language, shown, caller, now })
  if (answer === "written") redirect(lettersHref(language))
  return { ...told(answerWords[answer]), typed: wanted === "withdraw" ? before.typed : texts }
}

const answerWords = {
  outdated:
    "Somebody else wrote this letter while the page was open. Load the page again to see theirs; nothing was saved.",
  "names-person": "It names a patient. A letter to everybody names nobody; {name} stands for the person.",
} as const

function told(problem: string) {
  return { problem, problems: [], preview: null }
}
