import { describe, expect, test } from "vitest"
import {
  ageWords,
  endWords,
  keptWords,
  sinceWords,
  stoppedDrugs,
  stoppedDrugWords,
} from "../../../app/(clinic)/starting-and-stopping/row-words"
import { parseStartingView, startingHref } from "../../../app/(clinic)/starting-and-stopping/search-params"
import type { StoppedClass } from "../../../lib/questions/stopped-classes"

function stop(own: Partial<StoppedClass> = {}): StoppedClass {
  return {
    ...{ public_id: "somebody", class: "beta_blocker", drug: "metoprolol", dose: 50, dose_unit: "mg" },
    ...{ times_per_day: 2, stopped_on: "2026-09-20", days_ago: 41, is_run_out: false, stop_reason: "tired" },
    ...{ is_tapered: true, measured_on: "2026-10-01", measured_systolic: 128.4, measured_diastolic: 76 },
    ...{ measured_source: "home" },
    ...own,
  }
}

describe("what stopped", () => {
  test("is one drug with all its classes", () => {
    const pill = { drug: "amlodipine + valsartan", dose: null }
    const drugs = stoppedDrugs([
      stop({ ...pill, class: "calcium_channel_blocker" }),
      stop({ ...pill, class: "ras_blocker" }),
    ])

    expect(drugs.map(stoppedDrugWords)).toEqual([
      "Amlodipine + valsartan, dose not on record, calcium channel blocker and RAS blocker",
    ])
  })

  test.each([
    [{}, "stopped 20\u00a0Sep\u00a02026, 41\u00a0days ago: tired; lowered in the 30 days before"],
    [
      { is_tapered: false, stop_reason: null, days_ago: 1 },
      "stopped 20\u00a0Sep\u00a02026, 1\u00a0day ago: no reason on record; no lower dose on record before",
    ],
    [
      { is_run_out: true, days_ago: 0 },
      "ran out, no stop on record 20\u00a0Sep\u00a02026, today; lowered in the 30 days before",
    ],
  ])("with %j ended so", (own, words) => {
    expect(endWords(stop(own))).toBe(words)
  })

  test.each([
    [{}, "first reading since: 128/76 home, 1\u00a0Oct\u00a02026"],
    [{ measured_on: null }, "not measured since"],
  ])("with %j was followed so", (own, words) => {
    expect(sinceWords(stop(own))).toBe(words)
  })
})

test("a class is told with its other reasons alone", () => {
  const kept = [
    { public_id: "somebody", class: "beta_blocker", reason: "atrial_fibrillation" as const },
    { public_id: "somebody", class: "diuretic", reason: "heart_failure" as const },
  ]

  expect(keptWords(kept, "beta_blocker")).toBe("another reason: atrial fibrillation")
  expect(keptWords(kept, null)).toBeNull()
  expect([ageWords(0), ageWords(1), ageWords(200)]).toEqual([
    "of that day",
    "1\u00a0day old",
    "200\u00a0days old",
  ])
})

test.each([
  [{ group: "low", finding: "falls", page: "2" }, "/starting-and-stopping?group=low&finding=falls&page=2"],
  [{ group: "low", finding: "severe" }, "/starting-and-stopping?group=low"],
  [{ group: "nothing", finding: "severe" }, "/starting-and-stopping?finding=severe"],
  [{ group: "above-target", month: "2026-13" }, "/starting-and-stopping"],
])("the address of %j", (raw, address) => {
  expect(startingHref(parseStartingView(raw))).toBe(address)
})
