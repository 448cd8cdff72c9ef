import fc from "fast-check"
import { expect, test } from "vitest"
import { parseLettersView } from "../../app/(clinic)/settings/letters/search-params"
import { inventedLetter } from "../../app/(clinic)/settings/letters/invented-letter"
import { languageTag, LetterTexts } from "../../lib/domain/letter-template"
import { Settings } from "../../lib/domain/settings"
import { chooseTemplate } from "../../lib/letters/choose-template"
import { letterProblems } from "../../lib/letters/letter-problems"
import { forInputs } from "../helpers/fuzz"
import { mostly } from "../helpers/hostile"

const part = mostly("Dear {name},\n{reasons}", "{nobody}", "{", "}}{{", "urine-albumin-due: {x}", "a:b:c")
const tag = mostly("en", "zh-Hant", "x-y-z", "de-CH-1996", "en-u-nu-thai", "i-klingon")
const of = { clinic: "Clinic", today: "2026-11-29", settings: Settings.parse({}) }

test("any letter is read with problems that lie within it, and filled in whatever they are", () =>
  forInputs(
    fc.tuple(fc.record({ letterhead: part, subject: part, body: part, closing: part, ownWords: part }), tag),
    ([given, language]) => {
      const read = LetterTexts.safeParse(given)
      if (!read.success) return
      for (const { part: where, line, column, message } of letterProblems(read.data)) {
        const lines = read.data[where].split("\n")
        expect(line).toBeLessThanOrEqual(lines.length)
        expect(column).toBeLessThanOrEqual([...(lines[line - 1] ?? "")].length + 1)
        expect(message).toMatch(/\.$/)
      }
      const known = languageTag(language)
      if (known !== null) inventedLetter({ language: known, ...read.data }, of)
    },
  ))

test("any language on record chooses a letter", () =>
  forInputs(tag, (language) => {
    const spanish = {
      language: "es",
      ...LetterTexts.parse({ letterhead: "", subject: "S", body: "B", closing: "", ownWords: "" }),
    }
    expect(["es", "en"]).toContain(chooseTemplate([spanish], language).template.language)
  }))

test("any address of the letters names a language or none", () =>
  forInputs(fc.dictionary(fc.constantFrom("language", "x"), tag), (raw) => {
    const { language } = parseLettersView(raw)
    if (language !== null) expect(languageTag(language)).toBe(language)
  }))
