import { expect, test } from "vitest"
import { suggestedReadings } from "../../../app/(clinic)/imports/suggested-readings"

const suggestion = (word: string, name: string, ingredients = [name]) => ({
  normalised: "ramiprl amlodipne",
  word,
  name,
  ingredients,
})

test("joins what was recognised with the names beside the misspelt words", () => {
  const text = { normalised: "ramiprl amlodipne", ingredients: ["indapamide"] }

  expect(
    suggestedReadings(text, [suggestion("ramiprl", "ramipril"), suggestion("amlodipne", "amlodipine")]),
  ).toEqual([{ names: ["ramipril", "amlodipine"], ingredients: ["indapamide", "ramipril", "amlodipine"] }])
})

test("gives a word near two names two readings", () => {
  const text = { normalised: "ramiprl amlodipne", ingredients: [] }

  const readings = suggestedReadings(text, [
    suggestion("ramiprl", "ramipril"),
    suggestion("ramiprl", "ramiprin"),
  ])

  expect(readings.map((reading) => reading.ingredients)).toEqual([["ramipril"], ["ramiprin"]])
})

test("says nothing where the suggestions belong to other texts", () => {
  const text = { normalised: "herbal tea", ingredients: [] }

  expect(suggestedReadings(text, [suggestion("ramiprl", "ramipril")])).toEqual([])
})
