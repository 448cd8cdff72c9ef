import path from "node:path"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { openFolder, writeExtract, type ExtractFiles } from "../../helpers/extract"
import { startImportProcess } from "../../helpers/import-process"
import { inForce } from "../../helpers/ledger-rows"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore

beforeAll(async () => {
  store = await openStore()
})
afterAll(async () => {
  await store.close()
  folder.close()
})

const patients = ["patient_id,birth_date,sex,registered_on", "P1,1960-05-01,female,2020-01-01"]
const visitColumns = "visit_id,patient_id,started_on,kind"
const badVisits = [
  visitColumns,
  ...Array.from({ length: 20 }, (_, index) => `V${index},P1,2026-01-10,walk-in`),
]

function run(files: ExtractFiles, ...flags: string[]) {
  const location = writeExtract(folder.dir, files)
  return startImportProcess({
    databaseUrl: store.url,
    dataDir: path.join(folder.dir, "data"),
    location,
    flags,
  }).end()
}

describe("filtrate import", () => {
  test("stores an extract, reports on stdout, tells its progress on stderr, and brings the snapshot up to date", async () => {
    const visits = [visitColumns, "V1,P1,2026-01-10,office", "V2,P1,2026-01-11,walk-in"]
    const { code, out, said } = await run({ patients, visits })

    expect(code).toBe(0)
    expect(out).toMatch(/^Import \d+ is stored\.\n/)
    expect(out).toMatch(/visits\.csv +2 +1 +0 +0 +0 +0 +1/)
    expect(out).toContain("line 3: kind must be one of: office, telehealth, emergency, inpatient, dialysis")
    expect(out).not.toContain("Reading")
    expect(said).toContain("Reading patients.csv\nReading visits.csv\n")
    const builds = await store.client.query("select status from snapshot_builds")
    expect(builds.rows).toEqual([{ status: "done" }])
  })

  test("ends with 3 when it asks, and goes on with --accept", async () => {
    const asking = await run({ visits: badVisits })
    const accepted = await run({ visits: badVisits }, "--accept", "--json")

    expect(asking.code).toBe(3)
    expect(asking.out).toContain("has stored nothing yet")
    expect(asking.out).toContain("visits.csv: of 20 rows, 20 rejected and 0 held")
    expect(asking.said).toContain("add --accept to go on")
    expect(accepted.code).toBe(0)
    expect(JSON.parse(accepted.out)).toMatchObject({ status: "done", files: [{ rejected: 20 }] })
  })

  test("ends with 1 when there is no extract", async () => {
    const { code, out, said } = await run({ "lab.csv": "x" })

    expect({ code, out }).toEqual({ code: 1, out: "" })
    expect(said).toContain("None of the files of an extract is there")
  })

  test("--dry-run stores nothing", async () => {
    const { code, out } = await run({ visits: [visitColumns, "V9,P1,2026-01-10,office"] }, "--dry-run")

    expect(code).toBe(0)
    expect(out).toContain("Dry run: nothing was stored")
    expect(await inForce(store, "visits")).toMatchObject([{ visit_id: "V1" }])
  })

  test("--full withdraws what is gone", async () => {
    const { code } = await run({ visits: [visitColumns, "V9,P1,2026-01-10,office"] }, "--full", "--accept")

    expect(code).toBe(0)
    expect(await inForce(store, "visits")).toMatchObject([{ visit_id: "V9" }])
  })

  test("--help says what it does", async () => {
    const { code, out } = await run({}, "--help")

    expect(code).toBe(0)
    for (const words of ["--full", "--dry-run", "--accept", "3 when it asks"]) expect(out).toContain(words)
  })
})
