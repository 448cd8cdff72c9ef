import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { writeDemoClinic } from "../../seed/write-demo-clinic"
import { openMonthlyClinic, type MonthAnswer, type MonthlyClinic } from "../helpers/monthly-clinic"
import { temporaryFolder } from "../helpers/temporary-folder"
import { openReference } from "../reference/compute-reference"
import { filesInFolder } from "../reference/csv"
import { differencesBetween } from "../reference/differences"

const timeZone = "America/Chicago"
const through = "2026-09-17"
const now = new Date(`${through}T18:00:00Z`)

describe("a generated clinic of 500 people, dirt and all", () => {
  const { folder, remove } = temporaryFolder()
  let clinic: MonthlyClinic
  let months: MonthAnswer[]

  beforeAll(async () => {
    writeDemoClinic({ folder, patients: 500, seed: 5, through })
    clinic = await openMonthlyClinic(timeZone)
    await clinic.bringIn(folder, now)
    months = await clinic.monthsOn(now)
  })
  afterAll(async () => {
    await clinic.close()
    remove()
  })

  it("has the same answers by another route, for every person in every one of 37 months", () => {
    const referenceOn = openReference({ open: filesInFolder(folder), timeZone, importDay: through })

    const differences = months.flatMap((month) =>
      differencesBetween(month, referenceOn(month.on)).map((line) => `${month.on} ${line}`),
    )

    expect(differences).toEqual([])
    expect(months).toHaveLength(37)
    expect(months.every((month) => month.patients.length > 100)).toBe(true)
  }, 600_000)
})
