import { expect, test } from "vitest"
import { measureWords } from "../../../lib/speech/measure-words"
import { sentenceText } from "../../../lib/speech/sentence-text"
import { defaultSettings } from "../../../lib/domain/settings"
import { wordedMeasures } from "../../../lib/measures/worded-measures"

const template = "{met} of {total} {total:person:people} with CKD {met:has:have} their pressure at target."

test("sets the numbers with separators and the words that fit several", () => {
  expect(sentenceText(template, { met: 1204, total: 1986 })).toBe(
    "1,204 of 1,986 people with CKD have their pressure at target.",
  )
})

test("sets the words that fit one", () => {
  expect(sentenceText(template, { met: 1, total: 1 })).toBe(
    "1 of 1 person with CKD has their pressure at target.",
  )
})

test.each(wordedMeasures(defaultSettings))("$id speaks without a hole in its sentence", (measure) => {
  const counts = { population: 20, excluded: 2, unknown: 3, met: 7, exception: 1, notMet: 7, total: 17 }
  const speech = measureWords(measure)

  const said = [speech.headline, speech.rateOf].map((one) => sentenceText(one, counts)).join(" ")

  expect(said).not.toMatch(/[{}]/)
  expect(said).not.toMatch(/\b0\b/) // an unknown name would be set as 0
})
