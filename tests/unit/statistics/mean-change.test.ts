import { expect, test } from "vitest"
import { meanChange, type Sum } from "../../../lib/statistics/mean-change"

// Worked example of the measure reference, 3.10: p1 to p4 in both months, p5 and p6 leave, p7 to p9 join.
const worked = {
  earlier: sumOf([4100, 3800, 3600, 3300, 2900, 3500]),
  later: sumOf([3700, 3600, 3500, 3200, 4600, 4300, 4000]),
  bothEarlier: sumOf([4100, 3800, 3600, 3300]),
  bothLater: sumOf([3700, 3600, 3500, 3200]),
}

test("splits the worked example: the same people eat less while the mean rises", () => {
  const parts = meanChange(worked)

  expect(parts?.change).toBeCloseTo(309.5, 1)
  expect(parts?.continuing).toBeCloseTo(-200, 1)
  expect(parts?.leavers).toBeCloseTo(166.7, 1)
  expect(parts?.joiners).toBeCloseTo(342.9, 1)
})

test("has parts that add up to the whole change", () => {
  const { change = NaN, continuing = NaN, leavers = NaN, joiners = NaN } = meanChange(worked) ?? {}

  expect(continuing + leavers + joiners).toBeCloseTo(change, 9)
})

test("gives all of the change to the same people where nobody left or joined", () => {
  const { bothEarlier, bothLater } = worked

  expect(meanChange({ earlier: bothEarlier, later: bothLater, bothEarlier, bothLater })).toEqual({
    ...{ change: -200, continuing: -200, leavers: 0, joiners: 0 },
  })
})

test("parts nothing where nobody is in both months", () => {
  const nobody = sumOf([])

  expect(meanChange({ ...worked, bothEarlier: nobody, bothLater: nobody })).toBeNull()
})

function sumOf(values: readonly number[]): Sum {
  return { n: values.length, sum: values.reduce((sum, value) => sum + value, 0) }
}
