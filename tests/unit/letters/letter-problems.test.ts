import { describe, expect, test } from "vitest"
import type { LetterTexts } from "../../../lib/domain/letter-template"
import { letterProblems } from "../../../lib/letters/letter-problems"
import { programLetter } from "../../../lib/letters/program-letter"

const good: LetterTexts = {
  ...{ letterhead: "{clinic}", subject: "A check is due", body: "Dear {name},\n{reasons}" },
  ...{ closing: "{clinician}", ownWords: "urine-albumin-due: A urine test is due." },
}
const placesOf = (texts: Partial<LetterTexts>) =>
  letterProblems({ ...good, ...texts }).map(({ part, line, column }) => [part, line, column])
const messageOf = (texts: Partial<LetterTexts>) => letterProblems({ ...good, ...texts })[0]?.message

test("the program's letter and one with every field have no problem", () => {
  expect(letterProblems(programLetter)).toEqual([])
  expect(placesOf({ body: "{name} {clinic} {today} {reasons} {clinician} {nextVisit}" })).toEqual([])
})

describe("what is in braces and no field is named by its line and letter, and says what to do", () => {
  test.each([
    ["a word that is no field", "Dear {name},\n\nyour {pressure} is", [["body", 3, 6]]],
    ["a field in other letters", "{Name}", [["body", 1, 1]]],
    ["a field with blanks", "{ name }", [["body", 1, 1]]],
    ["an empty pair", "a {} b", [["body", 1, 3]]],
    ["a brace that is left open", "Dear {name\nand so on", [["body", 1, 6]]],
    ["a brace that closes nothing", "Dear name},", [["body", 1, 10]]],
    [
      "a brace within another",
      "{{name}}",
      [
        ["body", 1, 1],
        ["body", 1, 8],
      ],
    ],
    ["a letter outside the first plane before it counts as one", "😀{x}", [["body", 1, 2]]],
  ])("%s", (_title, body, places) => {
    expect(placesOf({ body })).toEqual(places)
  })

  test("with the fields there are", () => {
    expect(messageOf({ body: "{pressure}" })).toBe(
      "There is no field {pressure}. Use one of {name}, {clinic}, {today}, {reasons}, {clinician}, {nextVisit}.",
    )
  })
})

test.each(["letterhead", "subject", "closing"] as const)(
  "the reasons stand in the body, not in the %s",
  (part) => {
    expect(placesOf({ [part]: "x {reasons}" })).toEqual([[part, 1, 3]])
    expect(messageOf({ [part]: "x {reasons}" })).toContain("in the body alone")
  },
)

test.each(["subject", "body"] as const)("the %s has to say something", (part) => {
  expect(messageOf({ [part]: " \n" })).toBe(`The ${part} is empty.`)
})

describe("the words of the reasons", () => {
  test.each([
    ["a line without a colon", "urine-albumin-due", "a colon and the words"],
    ["a reason there is none of", "\nurine: x", 'There is no reason "urine"'],
    ["a reason twice", "no-visit: a\nno-visit: b", "has words already"],
    ["no words", "no-visit:", "has no words"],
    ["a field", "no-visit: {today}", "hold no field"],
  ])("are refused with %s", (_title, ownWords, message) => {
    expect(messageOf({ ownWords })).toContain(message)
    expect(placesOf({ ownWords })).toEqual([["ownWords", ownWords.split("\n").length, 1]])
  })

  test("keep colons after the first, and empty lines say nothing", () => {
    expect(placesOf({ ownWords: "\n  \nurine-albumin-due: Due: a urine test\n" })).toEqual([])
  })
})
