import fc from "fast-check"
import { expect, test } from "vitest"
import { evaluate, openFormulas } from "../helpers/formulas"

const people = fc.record({
  ageYears: fc.integer({ min: 18, max: 110 }),
  sex: fc.constantFrom("female", "male"),
  lower: fc.integer({ min: 10, max: 2999 }),
  by: fc.integer({ min: 1, max: 500 }),
})

test("the eGFR falls as the creatinine rises, for everybody", async () => {
  const connection = await openFormulas()

  await fc.assert(
    fc.asyncProperty(people, async ({ ageYears, sex, lower, by }) => {
      const [low, high] = [lower / 100, (lower + by) / 100]
      const egfr = (creatinineMgDl: number) =>
        `egfr_creatinine_2021(${creatinineMgDl}, ${ageYears}, '${sex}')`

      expect(await evaluate(connection, `${egfr(low)} > ${egfr(high)}`)).toBe(true)
    }),
    { numRuns: 200 },
  )
  connection.closeSync()
})
