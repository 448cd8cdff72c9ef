import { expect, test } from "vitest"
import { dietChangeWords } from "../../../lib/figures/diet-change-words"

const days = { earlierAsOf: "2026-09-30", asOf: "2026-10-31" }

// The worked example of the measure reference, 3.10, with ten times as many people.
const many = {
  ...{ earlier_n: 60, earlier_mg: 212000, later_n: 70, later_mg: 269000 },
  ...{ both_n: 40, both_earlier_mg: 148000, both_later_mg: 140000 },
}

test("says what the same people changed first, then what asking others did", () => {
  const { same, asked } = plainWords(many)

  expect(same).toBe("40 people with records in both Sep 2026 and Oct 2026: 200 mg less.")
  expect(asked).toBe(
    "Who was asked changed: 167 mg more by the 20 only in Sep 2026, 343 mg more by the 30 only in Oct 2026. " +
      "Together the mean is 310 mg more.",
  )
})

test("counts people in place of a change where few are in both months", () => {
  const few = { ...many, both_n: 19, both_earlier_mg: 70300, both_later_mg: 66500 }

  expect(plainWords(few)).toEqual({
    same: "19 people with records in both Sep 2026 and Oct 2026, 41 only in Sep 2026, 51 only in Oct 2026.",
    asked: null,
  })
})

function plainWords(sums: typeof many) {
  const { same, asked } = dietChangeWords({ sums, ...days })
  return { same: same.replaceAll("\u00a0", " "), asked: asked?.replaceAll("\u00a0", " ") ?? null }
}
