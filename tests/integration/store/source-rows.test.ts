import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { commandActor } from "../../../lib/store/audit-actors"
import {
  listDrugNameMappings,
  removeDrugNameMapping,
  saveDrugNameMapping,
} from "../../../lib/store/drug-name-mappings"
import { findLatestBuild } from "../../../lib/store/snapshot-builds"
import { findRejectedLine, findSourceRow } from "../../../lib/store/source-rows"
import { importExtract, openFolder } from "../../helpers/extract"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore

beforeAll(async () => {
  store = await openStore()
  const patients = ["patient_id,birth_date,sex,registered_on", "P1,1960-05-01,female,2020-01-01"]
  const columns = "reading_id,patient_id,taken_at,systolic,diastolic,setting"
  await importExtract(store, folder.dir, {
    patients,
    readings: [columns, "R1,P1,2026-01-10T09:30:00Z,148,92,office", "R2,P1,2026-01-11,1480,92,office"],
  })
  await importExtract(store, folder.dir, {
    readings: [columns, "R9,P1,2026-01-09,130,80,office", "R1,P1,2026-01-10T09:30:00Z,128,82,office"],
  })
})

afterAll(async () => {
  await store.close()
  folder.close()
})

const row = (importId: number, line: number) =>
  findSourceRow(store.prisma, { kind: "readings", importId, line, timeZone: "America/Chicago" })

describe("a row of an extract", () => {
  test("is shown as it is kept, with its times on the clinic's clock", async () => {
    const found = await row(2, 3)
    const value = (column: string) => found?.cells.find((cell) => cell.column === column)?.value

    expect([value("reading_id"), value("systolic"), value("taken_at"), value("pulse")]).toEqual([
      "R1",
      "128",
      "2026-01-10 03:30",
      null,
    ])
    expect(found?.publicId).toMatch(/^[0-9a-f-]{36}$/)
  })

  test("comes with every version of the same fact, whichever is asked for", async () => {
    for (const found of [await row(1, 2), await row(2, 3)])
      expect(
        found?.versions.map(({ importId, line, endReason, endedBy }) => [importId, line, endReason, endedBy]),
      ).toEqual([
        [2, 3, null, null],
        [1, 2, "superseded", 2],
      ])
  })

  test("a line that brought nothing is no row; one that was rejected is told with its reason", async () => {
    expect(await row(1, 3)).toBeNull()
    expect(await row(1, 99)).toBeNull()
    expect(
      await findRejectedLine(store.prisma, { file: "readings.csv", importId: 1, line: 3 }),
    ).toMatchObject({
      column: "systolic",
      original: "R2,P1,2026-01-11,1480,92,office",
    })
  })

  test("a row held for an unknown patient leads to nobody's page", async () => {
    const held = await importExtract(store, folder.dir, {
      visits: ["visit_id,patient_id,started_on,kind", "V1,P9,2026-01-11,office"],
    })
    const place = { kind: "visits", importId: held.importId, line: 2, timeZone: "UTC" } as const

    expect(await findSourceRow(store.prisma, place)).toMatchObject({ publicId: null })
  })

  test("staff speak of no patient", async () => {
    const imported = await importExtract(store, folder.dir, {
      staff: ["staff_id,name,role", "S1,Dr Ames,nephrologist"],
    })
    const found = await findSourceRow(store.prisma, {
      kind: "staff",
      importId: imported.importId,
      line: 2,
      timeZone: "UTC",
    })

    expect(found?.publicId).toBeNull()
    expect(found?.cells.find((cell) => cell.column === "name")?.value).toBe("Dr Ames")
  })
})

describe("what a person says of a drug text", () => {
  const by = commandActor()

  test("is kept once a text; said again it takes the place of what was said before", async () => {
    await saveDrugNameMapping(store.prisma, {
      text: "bp tab",
      ingredients: ["amlodipine"],
      isIgnored: false,
      by,
    })
    await saveDrugNameMapping(store.prisma, { text: "bp tab", ingredients: [], isIgnored: true, by })

    expect(await listDrugNameMappings(store.prisma)).toMatchObject([
      { text: "bp tab", ingredients: [], isIgnored: true },
    ])

    await removeDrugNameMapping(store.prisma, { text: "bp tab", by })
    expect(await listDrugNameMappings(store.prisma)).toEqual([])
  })
})

describe("the latest build of the figures", () => {
  const now = new Date("2026-11-25T12:00:00Z")
  const build = (data: { status: string; message?: string; startedAt: Date }) =>
    store.prisma.snapshotBuild.create({ data })

  test("is none, then how it went; one that never ended has failed", async () => {
    expect(await findLatestBuild(store.prisma, now)).toBeNull()

    await build({ status: "failed", message: "disk full", startedAt: new Date("2026-11-25T11:00:00Z") })
    expect(await findLatestBuild(store.prisma, now)).toMatchObject({ status: "failed", message: "disk full" })

    await build({ status: "running", startedAt: new Date("2026-11-25T11:59:00Z") })
    expect(await findLatestBuild(store.prisma, now)).toMatchObject({ status: "running" })
    expect(await findLatestBuild(store.prisma, new Date("2026-11-25T13:00:00Z"))).toMatchObject({
      status: "failed",
    })
  })
})
