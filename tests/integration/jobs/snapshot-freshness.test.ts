import { rmSync } from "node:fs"
import path from "node:path"
import { afterAll, beforeAll, expect, test } from "vitest"
import { refresh } from "../../../lib/jobs/refresh"
import { isSnapshotStale } from "../../../lib/jobs/snapshot-freshness"
import { openStore, type TestStore } from "../../helpers/open-store"
import { temporaryFolder } from "../../helpers/temporary-folder"

let store: TestStore
let temporary: ReturnType<typeof temporaryFolder>
let dataDir: string
let now = new Date()

beforeAll(async () => {
  store = await openStore()
  temporary = temporaryFolder()
  dataDir = path.join(temporary.folder, "data")
  await store.prisma.clinic.create({ data: { id: 1, name: "Test", timeZone: "America/Bogota" } })
})

afterAll(async () => {
  await store.close()
  temporary.remove()
})

test("a store without a snapshot needs one, and then has it", async () => {
  expect(await isStale()).toBe(true)

  await build()

  expect(await isStale()).toBe(false)
})

test("a snapshot goes stale when the clinic's day turns, not when the machine's does", async () => {
  await build()
  const hoursLater = (hours: number) => isStale(new Date(now.getTime() + hours * 3_600_000))

  expect(await hoursLater(24)).toBe(true)
  expect(await isStale(lastSecondOfDay(now))).toBe(false)
  expect(await isStale(new Date(lastSecondOfDay(now).getTime() + 1000))).toBe(true)
})

test("a snapshot goes stale when an import has ended since", async () => {
  await build()
  await store.prisma.import.create({
    data: {
      source: "x",
      status: "done",
      asOf: new Date("2026-01-31"),
      finishedAt: new Date(Date.now() + 1000),
    },
  })

  expect(await isStale()).toBe(true)
  await store.prisma.import.deleteMany()
})

test("a snapshot goes stale when a setting has changed since", async () => {
  await build()
  await store.prisma.setting.create({ data: { key: "bp.systolicTarget", value: 120 } })

  expect(await isStale()).toBe(true)
  await store.prisma.setting.deleteMany()
})

test("a snapshot goes stale when a drug text has been mapped since", async () => {
  await build()
  await store.prisma.drugNameMapping.create({ data: { text: "x", ingredients: ["losartan"] } })

  expect(await isStale()).toBe(true)
  await store.prisma.drugNameMapping.deleteMany()
})

test("a snapshot goes stale when the clinic moves to another time zone", async () => {
  await build()
  await store.prisma.clinic.update({ where: { id: 1 }, data: { timeZone: "America/Lima" } })

  expect(await isStale()).toBe(true)
  await store.prisma.clinic.update({ where: { id: 1 }, data: { timeZone: "America/Bogota" } })
})

test("a snapshot is stale when it does not say which program computed it", async () => {
  await build()
  rmSync(path.join(dataDir, "snapshots", "program"))

  expect(await isStale()).toBe(true)
})

async function build(): Promise<void> {
  await refresh({ databaseUrl: store.url, dataDir })
  const build = await store.prisma.snapshotBuild.findFirstOrThrow({ orderBy: { id: "desc" } })
  now = build.startedAt
}

function isStale(at = now): Promise<boolean> {
  return isSnapshotStale({ client: store.prisma, dataDir, now: at })
}

/** In Bogota, which is five hours behind UTC all year. */
function lastSecondOfDay(instant: Date): Date {
  const [hour, day] = [3_600_000, 86_400_000]
  const midnight = Math.floor((instant.getTime() - 5 * hour) / day) * day + 5 * hour
  return new Date(midnight + day - 1000)
}
