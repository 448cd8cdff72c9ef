import { describe, expect, test } from "vitest"
import { drugGroups, drugWords } from "../../../app/(clinic)/drug-words"
import { parseSeveralClassesView } from "../../../app/(clinic)/several-classes/search-params"
import type { ActiveDrug } from "../../../lib/questions/active-drugs"

function drug(own: Partial<ActiveDrug>): ActiveDrug {
  return {
    ...{ public_id: "somebody", class: "diuretic", drug: "chlortalidone", dose: 25, dose_unit: "mg" },
    ...{ times_per_day: 1, max_daily_mg: 50, interferes: false },
    ...own,
  }
}

describe("a drug in words", () => {
  test.each([
    [{}, "chlortalidone 25 mg (maximum 50\u00a0mg)"],
    [
      { drug: "clonidine", dose: 0.1, times_per_day: 2, max_daily_mg: 0.8 },
      "clonidine 0.1 mg twice (maximum 0.8\u00a0mg)",
    ],
    [{ dose: 12.5, times_per_day: 3, max_daily_mg: null }, "chlortalidone 12.5 mg three times"],
    [{ dose: null }, "chlortalidone, dose not on record (maximum 50\u00a0mg)"],
    [{ times_per_day: null }, "chlortalidone 25 mg, times a day not on record (maximum 50\u00a0mg)"],
    [{ drug: "minoxidil", class: null, max_daily_mg: 100 }, "minoxidil 25 mg"],
  ])("with %j is %s", (own, words) => {
    expect(drugWords(drug(own))).toBe(words)
  })
})

test("drugs stand under the classes in their order, and what counts for none after them", () => {
  const [diuretic, ibuprofen] = [drug({}), drug({ class: null, drug: "ibuprofen", interferes: true })]

  expect(drugGroups(["beta_blocker", "diuretic"], [ibuprofen, diuretic])).toEqual([
    { class: "beta_blocker", name: "Beta blocker", drugs: [] },
    { class: "diuretic", name: "Diuretic", drugs: [diuretic] },
    { class: null, name: "Raises the pressure", drugs: [ibuprofen] },
  ])
})

test.each([
  [
    { month: "2026-09", finding: "no-diuretic", page: "3" },
    { month: "2026-09", finding: "no-diuretic", page: 3 },
  ],
  [{ finding: "all-three" }, { month: null, finding: null, page: null }],
  [
    { month: "2026-13", page: "1" },
    { month: null, finding: null, page: null },
  ],
])("the address %j", (raw, view) => {
  expect(parseSeveralClassesView(raw)).toEqual(view)
})
