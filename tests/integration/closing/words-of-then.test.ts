import { afterAll, beforeAll, expect, test } from "vitest"
import { chooseMonth, underSettingsThen } from "../../../app/(clinic)/months"
import { measureWordings } from "../../../app/(clinic)/patients/measure-wordings"
import { wholeClinic } from "../../../lib/access/scope"
import { snapshotMeta, type SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { dietSodiumWithinLimit } from "../../../lib/measures/diet-sodium-within-limit"
import { lowPressureOnDrugs } from "../../../lib/measures/low-pressure-on-drugs"
import { wordedMeasure } from "../../../lib/measures/worded-measures"
import { standingWords } from "../../../lib/speech/measure-words"
import { closedDay, openClosingClinic, type ClosingClinic } from "../../helpers/closing-clinic"

// January is closed while the limits are 2,300 mg and a systolic of 110; then both are set otherwise.

let clinic: ClosingClinic
let snapshot: SnapshotMeta

beforeAll(async () => {
  clinic = await openClosingClinic()
  await clinic.set({ "diet.limitMg": "2300", "bp.lowSystolic": "110" })
  await clinic.rebuild()
  if ((await clinic.closeJanuary()) !== "closed") throw new Error("January was not closed")
  await clinic.set({ "diet.limitMg": "2000", "bp.lowSystolic": "105" })
  await clinic.rebuild()
  snapshot = await snapshotMeta(wholeClinic)
}, 300_000)

afterAll(() => clinic.close())

test("a measure of the closed month names the limit of then, and that of another month the limit of now", () => {
  const question = (month: string) =>
    wordedMeasure(dietSodiumWithinLimit, underSettingsThen(snapshot, chooseMonth(snapshot, month)).settings)
      .question

  expect(question("2026-01")).toBe("How many are within the limit of 2,300 mg of sodium a day?")
  expect(question("2025-12")).toBe("How many are within the limit of 2,000 mg of sodium a day?")
})

test("the standings in the table of patients are said likewise", () => {
  const { today, closed } = measureWordings(snapshot)
  const met = (measures: typeof today | undefined) =>
    measures?.find(({ id }) => id === lowPressureOnDrugs.id)?.words["met"]

  expect(met(today)).toBe("below 105")
  expect(closed.map(({ asOf, measures }) => [asOf, met(measures)])).toEqual([[closedDay, "below 110"]])
  expect(standingWords(wordedMeasure(lowPressureOnDrugs, snapshot.settings), "met")).toBe("below 105")
})

test("once the settings are those of then again, one list of words serves every month", () => {
  const then = snapshot.closed[0]?.settings ?? snapshot.settings

  expect(measureWordings({ ...snapshot, settings: then }).closed).toEqual([])
})
