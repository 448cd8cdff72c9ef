import fc from "fast-check"
import { describe, expect, it } from "vitest"
import { clinicOf, smallClinic, type ChanceClinic } from "../fixtures/boundary-clinic"
import { writeClinic } from "../fixtures/clinic"
import { openMonthlyClinic, type MonthAnswer } from "../helpers/monthly-clinic"
import { temporaryFolder } from "../helpers/temporary-folder"
import { openReference } from "../reference/compute-reference"
import { filesInFolder } from "../reference/csv"
import { momentFromText } from "../reference/instant"
import { differencesBetween } from "../reference/differences"

const clinicsPerPlace = 25

/** Days on both sides of midnight, whole and broken hours, clocks that change and clocks that do not. */
const places = [
  { timeZone: "America/New_York", today: "2025-09-01", asOfs: ["2025-08-31", "2025-06-30", "2024-02-29"] },
  { timeZone: "Europe/London", today: "2025-03-31", asOfs: ["2025-03-31", "2025-02-28", "2024-03-31"] },
  { timeZone: "Asia/Kathmandu", today: "2024-02-29", asOfs: ["2024-02-29", "2023-11-30", "2023-02-28"] },
  { timeZone: "Pacific/Kiritimati", today: "2025-12-31", asOfs: ["2025-12-31", "2025-05-31", "2025-04-30"] },
  { timeZone: "Pacific/Pago_Pago", today: "2025-07-15", asOfs: ["2025-07-15", "2025-06-30", "2024-12-31"] },
  { timeZone: "Australia/Lord_Howe", today: "2025-04-30", asOfs: ["2025-04-30", "2024-10-31", "2024-04-30"] },
  { timeZone: "America/St_Johns", today: "2026-03-01", asOfs: ["2026-02-28", "2025-11-30", "2025-03-31"] },
  { timeZone: "UTC", today: "2028-02-29", asOfs: ["2028-02-29", "2027-08-31", "2027-05-31"] },
] as const

type Place = (typeof places)[number]

// 200 clinics: one import and one snapshot for the clinics of a place, whose people are told apart by their numbers.
describe("small clinics of chance have the same answers by another route, in every month", () => {
  it.each(places.map((place, index) => ({ ...place, seed: 20260 + index })))(
    `${clinicsPerPlace} clinics in $timeZone, seed $seed`,
    async ({ seed, ...place }) => {
      // What is left out is left out first when a failure is made smaller.
      const perhaps = fc.option(smallClinic(place.asOfs), { freq: 1_000_000 })
      const clinics = fc.array(perhaps, { minLength: clinicsPerPlace, maxLength: clinicsPerPlace })
      let compared = 0
      await fc.assert(
        fc.asyncProperty(clinics, async (drawn) => {
          const people = drawn.flatMap((one, index) => (one ? clinicOf(one, `k${index + 1}-`).people : []))

          const { differences, standings } = await compare({ people }, place)

          compared += standings
          expect(differences).toEqual([])
        }),
        // A failure is made smaller for as long, then told as it stands.
        { numRuns: 1, seed, interruptAfterTimeLimit: 300_000 },
      )
      expect(compared).toBeGreaterThan(10_000)
    },
    600_000,
  )
})

type Comparison = { differences: string[]; standings: number }

async function compare(clinic: ChanceClinic, place: Place): Promise<Comparison> {
  if (clinic.people.length === 0) return { differences: [], standings: 0 }
  const { folder, remove } = temporaryFolder()
  try {
    writeClinic(clinic, folder)
    const { timeZone, today } = place
    const referenceOn = openReference({ open: filesInFolder(folder), timeZone, importDay: today })
    const months = await monthsOf(folder, place)
    const differences = months.flatMap((month) =>
      differencesBetween(month, referenceOn(month.on)).map((line) => `${month.on} ${line}`),
    )
    const patients = months.flatMap((month) => month.patients)
    return { differences, standings: patients.flatMap((one) => Object.keys(one.standings)).length }
  } finally {
    remove()
  }
}

async function monthsOf(folder: string, { timeZone, today }: Place): Promise<MonthAnswer[]> {
  const monthly = await openMonthlyClinic(timeZone)
  const now = new Date(momentFromText(today, timeZone)?.instant ?? NaN)
  try {
    await monthly.bringIn(folder, now)
    return await monthly.monthsOn(now)
  } finally {
    await monthly.close()
  }
}
