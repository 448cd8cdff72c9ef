import { expect, it } from "vitest"
import { lastDayOfMonth } from "../../../lib/domain/plain-date"
import { baselineChoices, baselineWords, placeBaseline } from "../../../lib/figures/baseline"

const months = Array.from({ length: 14 }, (_, place) =>
  lastDayOfMonth(`${2025 + Math.floor(place / 12)}-${String((place % 12) + 1).padStart(2, "0")}`),
)
const asOfs = [...months, "2026-03-17"]

const chosen = {
  ...{ id: 1, measureId: "bp-at-target", fromMonth: "2025-02", reason: "home readings count since then" },
  ...{ madeBy: "Ruth Alder", madeOn: "2026-03-03" },
}

it("may begin with every month that eleven complete ones follow", () => {
  expect(baselineChoices(asOfs)).toEqual(["2025-01", "2025-02", "2025-03"])
})

it("has no choice with fewer than twelve complete months", () => {
  expect(baselineChoices(months.slice(0, 11))).toEqual([])
})

it("says whose it is, since when and why", () => {
  expect(baselineWords(placeBaseline(asOfs, chosen), asOfs).replaceAll("\u00a0", " ")).toBe(
    "Baseline: Feb 2025 to Jan 2026, set by Ruth Alder on 3 Mar 2026: home readings count since then.",
  )
})

it("is the first year shown while nobody chose another", () => {
  expect(baselineWords(placeBaseline(asOfs, null), asOfs).replaceAll("\u00a0", " ")).toBe(
    "Baseline: Jan 2025 to Dec 2025, the first year of the months shown.",
  )
})

it("says when the chosen one is no longer among the months shown", () => {
  const passed = { ...chosen, fromMonth: "2023-05" }

  expect(baselineWords(placeBaseline(asOfs, passed), asOfs).replaceAll("\u00a0", " ")).toBe(
    "Baseline: Jan 2025 to Dec 2025, the first year of the months shown. The one set from May 2023 is no longer among them.",
  )
})
