import { describe, expect, test } from "vitest"
import type { LetterTemplate } from "../../../lib/domain/letter-template"
import { Settings } from "../../../lib/domain/settings"
import { fillLetter, type LetterFacts } from "../../../lib/letters/fill-letter"
import { programLetter } from "../../../lib/letters/program-letter"
import { reasons } from "../../../lib/outreach/reasons"

const none = { factOn: null, secondValue: null, comparator: null, fallsOutOn: null }
const pressure = { ...none, reason: "above-target", value: 146, secondValue: 88 }
const potassium = { ...none, reason: "potassium-high", value: 5.8, comparator: ">" }
const urine = { ...none, reason: "urine-albumin-due", value: null }
const facts: LetterFacts = {
  ...{ name: "Ingrid Sollie", clinic: "Lowmoor Kidney Clinic", clinician: "Dr Amir Rahman" },
  ...{ today: "2026-11-29", nextVisitOn: "2026-12-24", reasons: [pressure, potassium, urine] },
}
const template = (texts: Partial<LetterTemplate>): LetterTemplate => ({
  ...{ language: "en", letterhead: "", subject: "S", body: "{reasons}", closing: "", ownWords: "" },
  ...texts,
})
const withValues = Settings.parse({ "outreach.letterValues": "yes" })
const withoutValues = Settings.parse({})

test("every field is filled, and what is filled in is not read for fields again", () => {
  const body = "{name}|{clinic}|{today}|{clinician}|{nextVisit}"
  const letter = fillLetter(template({ body }), { ...facts, name: "{clinic} {" }, withoutValues)

  expect(letter.body).toBe(
    "{clinic} {|Lowmoor Kidney Clinic|29 November 2026|Dr Amir Rahman|24 December 2026",
  )
})

test("reasons stand one a line in plain words, and words that two reasons share stand once", () => {
  const twice = [...facts.reasons, { ...none, reason: "kidney-tests-due", value: null }, urine]

  expect(fillLetter(template({}), { ...facts, reasons: twice }, withoutValues).reasons).toEqual([
    "The blood pressure is due for a check.",
    expect.stringMatching(/^A blood test/),
    "A urine test is due.",
    "A blood test is due.",
  ])
})

describe("values", () => {
  test("stand nowhere unless the clinic switched them on", () => {
    const letter = fillLetter(programLetter, facts, withoutValues)

    expect(Object.values(letter).join("\n")).not.toMatch(/146|88|5\.8|mmHg|mmol/)
  })

  test("stand after the reason they are behind once it did, none where there is none", () => {
    const [high, blood, due] = fillLetter(template({}), facts, withValues).reasons

    expect(high).toBe("The blood pressure is due for a check. (146/88 mmHg)")
    expect(blood).toContain("(>5.8 mmol/L)")
    expect(due).toBe("A urine test is due.")
  })

  test("are written as the language writes numbers, without a sign that parts thousands", () => {
    const protein = { ...none, reason: "protein-without-ras-blocker", value: 1234 }
    const of = (language: string) =>
      fillLetter(template({ language }), { ...facts, reasons: [potassium, protein] }, withValues).reasons

    expect(of("de")).toEqual([
      expect.stringContaining("(>5,8 mmol/L)"),
      expect.stringContaining("(1234 mg/g)"),
    ])
    expect(of("ar")[0]).toContain("5.8")
  })
})

describe("a letter in another language", () => {
  const ownWords = "urine-albumin-due: Toca un análisis de orina.\nno-visit: sin cita"
  const spanish = template({ language: "es", body: "{today}\n{nextVisit}\n{reasons}", ownWords })

  test("has its days and the clinic's words, and names the reasons that still speak English", () => {
    const letter = fillLetter(spanish, { ...facts, reasons: [urine, pressure] }, withoutValues)

    expect(letter.body).toBe(
      "29 de noviembre de 2026\n24 de diciembre de 2026\nToca un análisis de orina.\nThe blood pressure is due for a check.",
    )
    expect(letter.inEnglish).toEqual(["above-target"])
  })

  test("says in the clinic's words what is not on record, and names what it lacks", () => {
    const unknown = { ...facts, name: null, nextVisitOn: null, reasons: [] }
    const body = "{name}, {nextVisit}"
    const letter = fillLetter({ ...spanish, body }, unknown, withoutValues)

    expect(letter.body).toBe("patient, sin cita")
    expect(letter.inEnglish).toEqual(["no-name"])
  })

  test("that runs from the right keeps together, line by line, what is filled in", () => {
    const arabic = template({ language: "ar", body: "مرحبا {name}،\n{reasons}" })
    const letter = fillLetter(arabic, { ...facts, reasons: [urine, pressure] }, withValues)

    expect(letter.body).toBe(
      "مرحبا \u2068Ingrid Sollie\u2069،\n\u2068A urine test is due.\u2069\n\u2068The blood pressure is due for a check. \u2068(146/88 mmHg)\u2069\u2069",
    )
  })

  // Directions by the Unicode CLDR's script metadata (from memory).
  test.each([
    ["ar", "rtl"],
    ["ur", "rtl"],
    ["he", "rtl"],
    ["pa-Arab", "rtl"],
    ["pa", "ltr"],
    ["es", "ltr"],
    ["vi", "ltr"],
  ])("in %s runs %s", (language, direction) => {
    expect(fillLetter({ ...spanish, language }, facts, withoutValues).direction).toBe(direction)
  })
})

describe("the program's letter", () => {
  test("names no illness, no drug and no value, whatever the reason", () => {
    const all = reasons.map(({ id }) => ({ ...pressure, reason: id }))
    const letter = fillLetter(programLetter, { ...facts, clinic: "The clinic", reasons: all }, withoutValues)
    const said = [letter.subject, letter.body].join("\n")

    expect(said).not.toMatch(/disease|diabet|hypertens|failure|dialys|transplant|albumin|potassium|sodium/i)
    expect(said).not.toMatch(/\d/)
  })

  test("says what to do when unwell and in an emergency", () => {
    const { body } = fillLetter(programLetter, facts, withoutValues)

    expect(body).toContain("If you feel unwell")
    expect(body).toContain("the local emergency number")
  })

  // Flesch reading ease of 60 and more is plain English: Flesch 1948, J Appl Psychol 32:221-233 (from memory).
  test("reads as plain English", () => {
    const { body } = fillLetter(programLetter, { ...facts, clinic: "the clinic" }, withoutValues)

    expect(readingEase(body)).toBeGreaterThan(60)
  })
})

/** Syllables are counted as groups of vowels, a silent e at the end left out. */
function readingEase(text: string): number {
  const words = text.match(/[A-Za-z']+/g) ?? []
  const sentences = text.split(/[.:]\s/).filter((sentence) => /[a-z]/.test(sentence))
  const syllables = words.map((word) =>
    Math.max(
      1,
      (
        word
          .toLowerCase()
          .replace(/e$/, "")
          .match(/[aeiouy]+/g) ?? []
      ).length,
    ),
  )
  const spoken = syllables.reduce((sum, number) => sum + number, 0)
  return 206.835 - (1.015 * words.length) / sentences.length - (84.6 * spoken) / words.length
}
