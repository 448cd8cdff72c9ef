import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { writeDemoClinic } from "../../seed/write-demo-clinic"
import { boundaryClinic } from "../fixtures/boundary-clinic"
import { writeClinic } from "../fixtures/clinic"
import { importClinic, type ImportedClinic } from "../helpers/import-clinic"
import { temporaryFolder } from "../helpers/temporary-folder"
import { openReference, type ReferenceAnswer } from "../reference/compute-reference"
import { filesInFolder } from "../reference/csv"
import { differencesBetween, measuresOfOneSide } from "../reference/differences"

const timeZone = "America/New_York"
const edgeDays = ["2024-02-29", "2025-03-31", "2025-06-30", "2025-08-31"] as const
const boundarySeed = 20250831

const clinics = [
  {
    name: "a demo clinic of 300 people",
    write: (folder: string) => writeDemoClinic({ folder, patients: 300, seed: 11, through: "2025-09-17" }),
    days: ["2024-02-29", "2025-03-31", "2025-07-11", "2025-09-17"] as const,
  },
  {
    name: `1,000 people made of boundaries, seed ${boundarySeed}`,
    write: (folder: string) =>
      writeClinic(boundaryClinic({ seed: boundarySeed, people: 1000, asOfs: edgeDays }), folder),
    days: edgeDays,
  },
]

describe.each(clinics)("by another route: $name", ({ write, days }) => {
  const { folder, remove } = temporaryFolder()
  let imported: ImportedClinic
  let referenceOn: (on: string) => ReferenceAnswer

  beforeAll(async () => {
    write(folder)
    const today = new Date().toISOString().slice(0, 10)
    referenceOn = openReference({ open: filesInFolder(folder), timeZone, importDay: today })
    imported = await importClinic({ folder, timeZone })
  })
  afterAll(async () => {
    await imported.close()
    remove()
  })

  it.each(days)("every person and every measure agree on %s", async (on) => {
    const [patients, measures] = [await imported.patientsOn(on), await imported.measuresOn(on)]
    const reference = referenceOn(on)

    const differences = differencesBetween({ patients, measures }, reference)

    expect(differences).toEqual([])
    expect(reference.patients.length).toBeGreaterThan(20)
  })

  it("no measure is answered by one side alone", async () => {
    const [on] = days
    const onOneSide = measuresOfOneSide({ measures: await imported.measuresOn(on) }, referenceOn(on))

    expect(onOneSide).toEqual([])
  })
})
