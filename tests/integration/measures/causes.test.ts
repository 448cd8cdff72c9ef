import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { measures } from "../../../lib/measures/index"
import { measurePeople } from "../../../lib/questions/measure-people"
import { standingChanges } from "../../../lib/questions/standing-changes"
import { writeDemoClinic } from "../../../seed/write-demo-clinic"
import { causeClinic } from "../../fixtures/cause-people"
import { writeClinic } from "../../fixtures/clinic"
import { openMonthlyClinic, type MonthlyClinic, type OpenSnapshot } from "../../helpers/monthly-clinic"
import { temporaryFolder } from "../../helpers/temporary-folder"
import { openCauses } from "../../reference/causes"
import { filesInFolder } from "../../reference/csv"

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

describe("the hand-made people who moved between two months", () => {
  const { folder, remove } = temporaryFolder()
  let clinic: MonthlyClinic
  let snapshot: OpenSnapshot

  beforeAll(async () => {
    writeClinic(causeClinic, folder)
    clinic = await openMonthlyClinic(causeClinic.timeZone)
    await clinic.bringIn(folder, new Date(`${causeClinic.on}T18:00:00Z`))
    await clinic.monthsOn(new Date(`${causeClinic.on}T18:00:00Z`), { months: 0 })
    snapshot = await clinic.openSnapshot()
  })
  afterAll(async () => {
    snapshot.close()
    await clinic.close()
    remove()
  })

  it.each(causeClinic.people)("$id: $cause", async ({ id, measureId, change, cause }) => {
    const measure = measures.find((one) => one.id === measureId)
    if (!measure) throw new Error(`no measure ${measureId}`)
    const days = { as_of: causeClinic.on, earlier_as_of: causeClinic.earlierOn }

    const listed = await snapshot.ask(measurePeople(measure), { ...everyone, ...days, change, cause })

    expect(listed.map((person) => person.patient_id)).toContain(id)
  })

  it("moved for the same reason by another route", () => {
    const moved = openCauses({
      ...{ open: filesInFolder(folder), timeZone: causeClinic.timeZone, importDay: causeClinic.on },
    })(causeClinic.earlierOn, causeClinic.on)

    for (const { id, measureId, change, cause } of causeClinic.people)
      expect(moved).toContainEqual({ patient_id: id, measure_id: measureId, change, cause })
  })
})

describe("a generated clinic of 300 people", () => {
  const through = "2026-09-17"
  const now = new Date(`${through}T18:00:00Z`)
  const timeZone = "America/Chicago"
  const { folder, remove } = temporaryFolder()
  let clinic: MonthlyClinic
  let snapshot: OpenSnapshot

  beforeAll(async () => {
    writeDemoClinic({ folder, patients: 300, seed: 11, through })
    clinic = await openMonthlyClinic(timeZone)
    await clinic.bringIn(folder, now)
    await clinic.monthsOn(now, { months: 0 })
    snapshot = await clinic.openSnapshot()
  }, 300_000)
  afterAll(async () => {
    snapshot.close()
    await clinic.close()
    remove()
  })

  it.each([
    ["2026-08-31", through],
    ["2026-07-31", "2026-08-31"],
    ["2025-01-31", "2025-02-28"],
    ["2025-08-31", "2026-08-31"],
    ["2023-09-30", through],
  ])(
    "has the same people gain, lose, join and leave by another route, for the same causes: %s to %s",
    async (earlier, later) => {
      const referenceOn = openCauses({ open: filesInFolder(folder), timeZone, importDay: through })
      const expected = new Map<string, number>()
      for (const { measure_id, change, cause } of referenceOn(earlier, later)) {
        const key = `${measure_id} ${change} ${cause}`
        expected.set(key, (expected.get(key) ?? 0) + 1)
      }

      const moves = await snapshot.ask(standingChanges, { as_of: later, earlier_as_of: earlier })
      const found = new Map<string, number>()
      for (const { measure_id, change, cause, people } of moves.filter((move) => move.change !== null)) {
        const key = `${measure_id} ${change} ${cause}`
        found.set(key, (found.get(key) ?? 0) + people)
      }

      expect([...found].sort()).toEqual([...expected].sort())
      expect(found.size).toBeGreaterThan(30)
    },
    300_000,
  )
})
