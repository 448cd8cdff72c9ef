import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { handMadeClinics, writeClinic } from "../fixtures/clinic"
import { differencesOf } from "../fixtures/clinic-differences"
import { sodiumClinic, sodiumMeans } from "../fixtures/clinic-diet"
import { measureIds, type HandMadePerson, type MeasureId } from "../fixtures/clinic-person"
import { settingsClinics } from "../fixtures/clinic-settings"
import { importClinic, type ImportedClinic } from "../helpers/import-clinic"
import { temporaryFolder } from "../helpers/temporary-folder"

describe.each(handMadeClinics)("the hand-made people on $name", (clinic) => {
  const { folder, remove } = temporaryFolder()
  let imported: ImportedClinic
  let patients: Awaited<ReturnType<ImportedClinic["patientsOn"]>>

  beforeAll(async () => {
    writeClinic(clinic, folder)
    imported = await importClinic({ folder, timeZone: clinic.timeZone })
    patients = await imported.patientsOn(clinic.on)
  })
  afterAll(async () => {
    await imported.close()
    remove()
  })

  it.each(measureIds)("stand where they were put by hand: %s", (measure) => {
    const byHand = groupsByHand(clinic.people, measure)
    const standingById = new Map(patients.map((patient) => [patient.patient_id, patient.standings[measure]]))
    const asked = Object.values(byHand).flat()

    const groups = groupsOf(asked, (id) => standingById.get(id) ?? "not in panel")

    expect(groups).toEqual(byHand)
  })

  it("have the values that were worked out by hand", () => {
    const differences = differencesOf(clinic.people, patients)

    expect(differences).toEqual([])
  })
})

describe.each(settingsClinics)("the hand-made people of a clinic $name", (clinic) => {
  const { folder, remove } = temporaryFolder()
  let imported: ImportedClinic

  beforeAll(async () => {
    writeClinic(clinic, folder)
    imported = await importClinic({ folder, timeZone: clinic.timeZone, settings: clinic.settings })
  })
  afterAll(async () => {
    await imported.close()
    remove()
  })

  it("stand where its settings put them", async () => {
    const patients = await imported.patientsOn(clinic.on)

    expect(differencesOf(clinic.people, patients)).toEqual([])
  })
})

describe("the sodium of a month", () => {
  const { folder, remove } = temporaryFolder()
  let imported: ImportedClinic

  beforeAll(async () => {
    writeClinic(sodiumClinic, folder)
    imported = await importClinic({ folder, timeZone: sodiumClinic.timeZone })
  })
  afterAll(async () => {
    await imported.close()
    remove()
  })

  it("has the mean, the interval and the paired change that were worked out by hand", async () => {
    const measures = await imported.measuresOn(sodiumClinic.on)

    expect(measures.find((measure) => measure.id === "diet-sodium")).toEqual({
      id: "diet-sodium",
      n: sodiumMeans.n,
      meanMg: expect.closeTo(sodiumMeans.meanMg, 2),
      low: expect.closeTo(sodiumMeans.low, 1),
      high: expect.closeTo(sodiumMeans.high, 1),
      pairedN: sodiumMeans.pairedN,
      pairedChangeMg: expect.closeTo(sodiumMeans.pairedChangeMg, 6),
    })
  })
})

function groupsByHand(people: HandMadePerson[], measure: MeasureId): Record<string, string[]> {
  const standingById = new Map(
    people.flatMap(({ id, expect: byHand }) => {
      const standing = byHand === "not in panel" ? undefined : byHand[measure]
      return standing ? [[id, standing] as const] : []
    }),
  )
  return groupsOf([...standingById.keys()], (id) => standingById.get(id) ?? "")
}

function groupsOf(ids: string[], standingOf: (id: string) => string): Record<string, string[]> {
  const groups: Record<string, string[]> = {}
  for (const id of ids.toSorted()) (groups[standingOf(id)] ??= []).push(id)
  return groups
}
