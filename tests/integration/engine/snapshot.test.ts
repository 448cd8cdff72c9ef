import { existsSync, readdirSync } from "node:fs"
import { mkdtemp, rm, writeFile, mkdir } from "node:fs/promises"
import { tmpdir } from "node:os"
import path from "node:path"
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest"
import { z } from "zod"
import { wholeClinic } from "../../../lib/access/scope"
import { askWithin } from "../../../lib/engine/scoped"
import { snapshotMeta } from "../../../lib/engine/snapshot-meta"
import { currentSnapshot, snapshotDir } from "../../../lib/engine/snapshot"
import { buildSnapshot } from "../../../lib/engine/build"
import { refresh } from "../../../lib/jobs/refresh"
import { openStore, type TestStore } from "../../helpers/open-store"

let store: TestStore
let dataDir: string
const now = new Date("2026-10-31T12:00:00Z")

beforeAll(async () => {
  store = await openStore()
  await store.client.query(`
    insert into clinics(id, name, time_zone) values (1, 'Test clinic', 'Europe/Oslo');
    insert into imports(id, source, status, as_of) values (1, 'first', 'done', '2026-10-01'), (2, 'second', 'done', '2026-10-20');
    insert into patients(patient_id) values ('P1');
    insert into patient_records(import_id, line, key, hash, known_at, patient_id, birth_date, sex, registered_on)
      values (1, 2, gen_random_uuid(), gen_random_uuid(), '2026-10-01', 'P1', '1960-01-01', 'female', '2020-01-01');
    insert into visits(import_id, line, key, hash, known_at, patient_id, visit_id, started_on, kind)
      values (1, 2, gen_random_uuid(), gen_random_uuid(), '2026-10-01', 'P1', 'V1', '2026-09-30', 'office');
  `)
})

afterAll(() => store.close())

beforeEach(async () => {
  dataDir = await mkdtemp(path.join(tmpdir(), "filtrate-snapshot-"))
  process.env.FILTRATE_DATA = dataDir
})

afterEach(async () => {
  delete process.env.FILTRATE_DATA
  await store.client.query("delete from settings; delete from readings")
  await rm(dataDir, { recursive: true, force: true })
})

async function addReading(line: number, systolic: number, knownAt: string, endedAt: string | null) {
  await store.client.query(
    `insert into readings(import_id, line, key, hash, known_at, ended_at, ended_by, end_reason, patient_id, taken_at, is_date_only,
       systolic, diastolic, setting)
     values (1, $1, gen_random_uuid(), gen_random_uuid(), $2, $3::timestamptz, case when $3::text is not null then 2 end,
       case when $3::text is not null then 'superseded' end, 'P1', '2026-09-30T22:30:00Z', false, $4, 80, 'office')`,
    [line, knownAt, endedAt, systolic],
  )
}

const latest = {
  sql: "select systolic, bp_on from patient_month where is_running order by patient_id",
  Row: z.object({ systolic: z.number().nullable(), bp_on: z.string().nullable() }),
}

const build = (extra: object = {}) =>
  buildSnapshot({
    databaseUrl: store.url,
    dataDir,
    builtAt: new Date(),
    todayIn: () => "2026-10-31",
    ...extra,
  })

describe("the snapshot", () => {
  it("puts a reading on the day it has in the clinic's time zone", async () => {
    await addReading(2, 131, "2026-10-01", null)

    await build()

    // 22:30 UTC on 30 September is 00:30 on 1 October in Oslo (IANA time zone database, summer time).
    expect(await askWithin(wholeClinic, latest)).toEqual([{ systolic: 131, bp_on: "2026-10-01" }])
    expect(await snapshotMeta(wholeClinic)).toMatchObject({
      clinicName: "Test clinic",
      timeZone: "Europe/Oslo",
    })
  })

  it("answers as known on an earlier day", async () => {
    await addReading(2, 150, "2026-10-01T10:00:00Z", "2026-10-20T10:00:00Z")
    await addReading(3, 120, "2026-10-20T10:00:00Z", null)

    await build({ knownAt: "2026-10-10T21:59:59Z" })
    const then = await askWithin(wholeClinic, latest)
    await build()
    const today = await askWithin(wholeClinic, latest)

    expect(then).toEqual([{ systolic: 150, bp_on: "2026-10-01" }])
    expect(today).toEqual([{ systolic: 120, bp_on: "2026-10-01" }])
  })

  it("shows readers the new build once it is swapped in, and keeps no more than the one before", async () => {
    await addReading(2, 131, "2026-10-01", null)
    await build()
    const before = await askWithin(wholeClinic, latest)

    await store.client.query("update readings set systolic = 141")
    await build()
    const after = await askWithin(wholeClinic, latest)
    await build()

    expect(before[0]?.systolic).toBe(131)
    expect(after[0]?.systolic).toBe(141)
    expect(readdirSync(snapshotDir(dataDir)).filter((name) => name.endsWith(".duckdb"))).toHaveLength(2)
  })

  it("goes on serving the earlier build when a new one fails, and keeps the reason", async () => {
    await addReading(2, 131, "2026-10-01", null)
    await refresh({ databaseUrl: store.url, dataDir, now })
    const served = currentSnapshot(dataDir)

    await store.client.query(`insert into settings(key, value) values ('bp.systolicTarget', '"high"')`)
    await expect(refresh({ databaseUrl: store.url, dataDir, now })).rejects.toThrow(
      /earlier one goes on serving/,
    )

    expect(currentSnapshot(dataDir)).toBe(served)
    expect((await askWithin(wholeClinic, latest))[0]?.systolic).toBe(131)
    const builds = await store.client.query(
      "select status, message from snapshot_builds order by id desc limit 1",
    )
    expect(builds.rows[0]).toMatchObject({
      status: "failed",
      message: expect.stringContaining("bp.systolicTarget"),
    })
  })

  it("removes what a killed build left behind", async () => {
    const deadPid = 2 ** 22 + 1 // above the largest process number Linux gives
    const left = path.join(snapshotDir(dataDir), `build-${deadPid}`)
    await mkdir(left, { recursive: true })
    await writeFile(path.join(left, "snapshot.duckdb"), "half")

    await build()

    expect(existsSync(left)).toBe(false)
  })

  it("re-evaluates the whole history under a changed setting", async () => {
    await addReading(2, 131, "2026-10-01", null)
    const atTarget = {
      sql: "select at_target from patient_month where is_running order by patient_id",
      Row: z.object({ at_target: z.boolean() }),
    }
    await build()
    const usual = await askWithin(wholeClinic, atTarget)

    await store.client.query(
      "insert into settings(key, value) values ('bp.systolicTarget', '140'), ('bp.diastolicTarget', '90')",
    )
    await build()

    expect(usual).toEqual([{ at_target: false }])
    expect(await askWithin(wholeClinic, atTarget)).toEqual([{ at_target: true }])
  })

  it("refuses a damaged file instead of reading it wrongly", async () => {
    await build()
    const file = currentSnapshot(dataDir)
    if (!file) throw new Error("no snapshot was built")
    await writeFile(file, "not a database")

    await expect(askWithin(wholeClinic, latest)).rejects.toThrow()
  })
})
