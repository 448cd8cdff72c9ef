import fc from "fast-check"
import { afterAll, beforeAll, expect, test } from "vitest"
import { measures } from "../../lib/measures/index"
import { changeCauses, changeKinds } from "../../lib/domain/changes"
import { measureMonths, type MeasureMonth } from "../../lib/questions/measure-months"
import { measurePeople } from "../../lib/questions/measure-people"
import { standingChangesOf } from "../../lib/questions/standing-changes"
import { splitChange } from "../../lib/statistics/change"
import { changeCounts } from "../../lib/statistics/change-counts"
import { rateOf } from "../../lib/statistics/rate"
import { writeDemoClinic } from "../../seed/write-demo-clinic"
import { openMonthlyClinic, type MonthlyClinic, type OpenSnapshot } from "../helpers/monthly-clinic"
import { temporaryFolder } from "../helpers/temporary-folder"

const through = "2026-09-17"
const now = new Date(`${through}T18:00:00Z`)
const everyone = {
  ...{ standing: null, change: null, cause: null, detail: null, reason: null },
  ...{
    clinician: null,
    site: null,
    sex: null,
    age: null,
    language: null,
    race: null,
    ethnicity: null,
    limit: 10_000,
    offset: 0,
  },
}
const { folder, remove } = temporaryFolder()

let clinic: MonthlyClinic
let snapshot: OpenSnapshot
let rows: MeasureMonth[]
let asOfs: string[]

beforeAll(async () => {
  writeDemoClinic({ folder, patients: 120, seed: 23, through })
  clinic = await openMonthlyClinic("UTC")
  await clinic.bringIn(folder, now)
  await clinic.monthsOn(now, { months: 0 })
  snapshot = await clinic.openSnapshot()
  rows = await snapshot.ask(measureMonths)
  asOfs = [...new Set(rows.map((row) => row.as_of))]
}, 300_000)

afterAll(async () => {
  snapshot.close()
  await clinic.close()
  remove()
})

function rateOn(measureId: string, asOf: string, direction: "up" | "down"): number | null {
  const row = rows.find((one) => one.measure_id === measureId && one.as_of === asOf)
  if (!row) return null
  return rateOf({ ...row, notMet: row.not_met }, direction).rate
}

// A list takes as long as all the rest, so that every eighth case asks for it.
const listEvery = 8

test("of 1,000 random measures and pairs of months the parts sum to the change, and each part lists its people", async () => {
  let split = 0
  let runs = 0
  await fc.assert(
    fc.asyncProperty(
      fc.nat({ max: measures.length - 1 }),
      fc.uniqueArray(fc.nat({ max: 36 }), { minLength: 2, maxLength: 2 }),
      async (place, pair) => {
        const measure = measures[place]
        const [earlier_as_of, as_of] = pair.toSorted((a, b) => a - b).map((one) => asOfs[one] ?? "")
        if (!measure || !earlier_as_of || !as_of) throw new Error("no such measure or month")
        const days = { as_of, earlier_as_of }
        const moves = await snapshot.ask(standingChangesOf([measure]), days)
        const counts = changeCounts(moves, measure.direction)
        const change = splitChange(counts)

        if (change.ok) {
          split += 1
          const [before, after] = [earlier_as_of, as_of].map((day) =>
            rateOn(measure.id, day, measure.direction),
          )
          const sum = change.gained + change.lost + change.left + change.joined
          expect(Math.abs(sum - ((after ?? NaN) - (before ?? NaN)))).toBeLessThanOrEqual(1e-12)
        }
        runs += 1
        const listed =
          runs % listEvery === 0 ? await snapshot.ask(measurePeople(measure), { ...everyone, ...days }) : null
        for (const kind of changeKinds) {
          const byCause = changeCauses.map((cause) => {
            const own = moves.filter((move) => move.change === kind && move.cause === cause)
            const people = own.reduce((sum, move) => sum + move.people, 0)
            if (listed)
              expect(listed.filter((one) => one.change === kind && one.cause === cause)).toHaveLength(people)
            return people
          })
          expect(byCause.reduce((sum, people) => sum + people, 0)).toBe(counts[kind])
        }
      },
    ),
    { numRuns: 1000, seed: 2026 },
  )
  expect(split).toBeGreaterThan(800)
}, 900_000)
