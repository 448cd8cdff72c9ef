import { expect, test } from "vitest"
import { defaultSettings } from "../../../lib/domain/settings"
import { standingsSql } from "../../../lib/measures/standing-sql"
import { findWordedMeasure, wordedMeasures } from "../../../lib/measures/worded-measures"
import { measureWords } from "../../../lib/speech/measure-words"

const settings = { ...defaultSettings, "drugs.several": 4, "bp.windowMonths": 9 }

test("the words of a measure say what the clinic set", () => {
  const measure = findWordedMeasure("uncontrolled-on-several-classes", settings)

  expect(measure?.question).toBe("Who is above target despite 4 or more classes?")
  expect(measure?.population[0]?.words).toBe("4 or more classes of pressure drugs active")
  expect(measure?.unknown[0]?.words).toBe("no usable pressure in the last 9 months")
})

test("the sentence on screen says what the clinic set", () => {
  const [measure] = wordedMeasures(settings).filter((one) => one.id === "uncontrolled-on-several-classes")

  expect(measure && measureWords(measure).headline).toMatch(/above target on 4 or more drug classes\.$/)
})

test("the reasons kept with the standings say what the clinic set", () => {
  const sql = standingsSql(wordedMeasures(settings))

  expect(sql).toContain("'no usable pressure in the last 9 months'")
  expect(sql).not.toMatch(/\{[a-z]+\.[A-Za-z0-9]+\}/)
})

test("nothing but the words changes with what the clinic set", () => {
  const [one] = wordedMeasures(settings)
  const [other] = wordedMeasures(defaultSettings)

  expect(one?.met.sql).toBe(other?.met.sql)
  expect(one?.params).toEqual(other?.params)
})
