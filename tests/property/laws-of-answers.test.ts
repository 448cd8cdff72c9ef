import fc from "fast-check"
import { beforeAll, describe, expect, it } from "vitest"
import { boundaryClinic, type ChanceClinic } from "../fixtures/boundary-clinic"
import { writeClinic } from "../fixtures/clinic"
import type { FactRow } from "../fixtures/clinic-facts"
import { clinicOfGroups, rowGroups, weights } from "../fixtures/row-groups"
import { openMonthlyClinic, type MonthAnswer, type MonthlyClinic } from "../helpers/monthly-clinic"
import { temporaryFolder } from "../helpers/temporary-folder"

const seed = 20261
const patience = 600_000
const now = new Date("2025-08-31T16:00:00Z")
const clinic = boundaryClinic({ seed, people: 120, asOfs: ["2025-08-31", "2025-05-31", "2024-02-29"] })
const groups = rowGroups(clinic)

/** Work over a clinic with nothing in it yet. */
async function inClinic<T>(work: (monthly: MonthlyClinic) => Promise<T>): Promise<T> {
  const monthly = await openMonthlyClinic("America/New_York")
  try {
    return await work(monthly)
  } finally {
    await monthly.close()
  }
}

async function bringIn(monthly: MonthlyClinic, part: ChanceClinic, on = now): Promise<void> {
  const { folder, remove } = temporaryFolder()
  writeClinic(part, folder)
  await monthly.bringIn(folder, on)
  remove()
}

async function answersTo(parts: ChanceClinic[], months?: number): Promise<MonthAnswer[]> {
  return inClinic(async (monthly) => {
    for (const part of parts) await bringIn(monthly, part)
    return monthly.monthsOn(now, { months })
  })
}

describe(`laws of the answers, over 120 people drawn with seed ${seed}`, () => {
  let whole: MonthAnswer[]

  beforeAll(async () => {
    whole = await answersTo([clinic])
  }, patience)

  it(
    "everybody of the panel has one standing, and the standings of a measure add up to its population",
    () => {
      for (const { patients, measures } of whole) {
        for (const measure of measures) {
          if (!("population" in measure)) continue
          const standings = patients.map((patient) => patient.standings[measure.id])
          const { population, excluded, unknown, met, exception, notMet } = measure

          expect(excluded + unknown + met + exception + notMet).toBe(population)
          expect(standings.filter((standing) => standing !== "outside")).toHaveLength(population)
          expect(["outside", "excluded", "unknown", "met", "exception", "not met"]).toEqual(
            expect.arrayContaining(standings),
          )
        }
      }
    },
    patience,
  )

  it(
    "the order of rows with different keys changes no answer",
    async () => {
      await fc.assert(
        fc.asyncProperty(weights(groups.length), async (order) => {
          const shuffled = groups.toSorted(
            (a, b) => (order[groups.indexOf(a)] ?? 0) - (order[groups.indexOf(b)] ?? 0),
          )

          expect(await answersTo([clinicOfGroups(shuffled)])).toEqual(whole)
        }),
        { numRuns: 2, seed, endOnFailure: true },
      )
    },
    patience,
  )

  it(
    "bringing the extract in by two parts changes no answer",
    async () => {
      await fc.assert(
        fc.asyncProperty(weights(groups.length), async (sides) => {
          const isFirst = (index: number) => (sides[index] ?? 0) % 2 === 0
          const parts = [
            groups.filter((_, index) => isFirst(index)),
            groups.filter((_, index) => !isFirst(index)),
          ]

          expect(await answersTo(parts.map(clinicOfGroups))).toEqual(whole)
        }),
        { numRuns: 2, seed, endOnFailure: true },
      )
    },
    patience,
  )

  it(
    "what comes in later changes no month as it was known before",
    async () => {
      const early = new Date("2025-08-31T12:00:00Z")
      const known = new Date("2025-08-31T13:00:00Z").toISOString()
      await fc.assert(
        fc.asyncProperty(weights(groups.length), async (sides) => {
          const isFirst = (index: number) => (sides[index] ?? 0) % 3 > 0
          await inClinic(async (monthly) => {
            await bringIn(monthly, clinicOfGroups(groups.filter((_, index) => isFirst(index))), early)
            const before = await monthly.monthsOn(early, { knownAt: known })
            await bringIn(monthly, clinicOfGroups(groups.filter((_, index) => !isFirst(index))))
            const asKnownBefore = await monthly.monthsOn(early, { knownAt: known })
            const today = await monthly.monthsOn(now)

            expect(asKnownBefore).toEqual(before)
            expect(today).not.toEqual(before)
          })
        }),
        { numRuns: 1, seed, endOnFailure: true },
      )
    },
    patience,
  )

  it(
    "a fact dated after a month changes nothing in it",
    async () => {
      const [lastOf, clear] = ["2025-05-31", "2025-06-02"]
      const isLater = (fact: FactRow) => (dayOf(fact) ?? "") > clear
      const before = groups.map((group) => group.filter(({ fact }) => !isLater(fact)))

      const without = await answersTo([clinicOfGroups(before)])

      const upTo = (months: MonthAnswer[]) => months.filter(({ on }) => on <= lastOf)
      const common = upTo(without).filter(({ on }) => whole.some((month) => month.on === on))
      expect(common.length).toBeGreaterThan(30)
      expect(upTo(whole).filter(({ on }) => common.some((month) => month.on === on))).toEqual(common)
      expect(whole).not.toEqual(without)
    },
    patience,
  )

  it(
    "a lower target never raises the number who met it",
    async () => {
      // Every source has a target of its own here: a published pair would bring its equivalents with it.
      const targets = fc.record({
        upper: fc.integer({ min: 121, max: 139 }),
        lower: fc.integer({ min: 71, max: 89 }),
      })
      const lowered = fc.record({
        upper: fc.nat({ max: 8 }),
        lower: fc.nat({ max: 8 }),
        limitMg: fc.nat({ max: 500 }),
      })
      await inClinic(async (monthly) => {
        await bringIn(monthly, clinic)
        await fc.assert(
          fc.asyncProperty(targets, lowered, async (higher, less) => {
            await monthly.set({ ...targetsOf(higher.upper, higher.lower), "diet.limitMg": 2000 })
            const at = await monthly.monthsOn(now, { months: 24 })
            const by = targetsOf(higher.upper - less.upper, higher.lower - less.lower)
            await monthly.set({ ...by, "diet.limitMg": 2000 - less.limitMg })
            const below = await monthly.monthsOn(now, { months: 24 })

            for (const id of ["bp-at-target", "diet-sodium-within-limit"])
              expect(metIn(at, id)).toEqual(expect.arrayContaining(metIn(below, id)))
            expect(metIn(at, "bp-at-target").length).toBeGreaterThan(0)
          }),
          { numRuns: 3, seed, endOnFailure: true },
        )
      })
    },
    patience,
  )
})

/** The day a fact is dated; empty for what has none of its own or may say anew what was said before. */
function dayOf({ file, row }: FactRow): string | undefined {
  if (file === "patients.csv" || file === "allergies.csv" || file === "staff.csv") return undefined
  if (file === "problems.csv") return row["onset_on"]
  return (row["taken_at"] ?? row["collected_at"] ?? row["started_on"] ?? row["recorded_on"])?.slice(0, 10)
}

function targetsOf(upper: number, lower: number) {
  return {
    "bp.systolicTarget": upper,
    "bp.diastolicTarget": lower,
    "bp.homeSystolicTarget": upper,
    "bp.homeDiastolicTarget": lower,
    "bp.ambulatorySystolicTarget": upper - 5,
    "bp.ambulatoryDiastolicTarget": lower - 5,
  }
}

function metIn(months: MonthAnswer[], id: string): string[] {
  return months.flatMap(({ on, patients }) =>
    patients
      .filter(({ standings }) => standings[id] === "met")
      .map((patient) => `${on} ${patient.patient_id}`),
  )
}
