import { existsSync, mkdirSync, utimesSync, writeFileSync } from "node:fs"
import path from "node:path"
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { prune } from "../../../lib/jobs/prune"
import { commandActor } from "../../../lib/store/audit-actors"
import { openFolder } from "../../helpers/extract"
import { filtrate } from "../../helpers/filtrate"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
const uploads = path.join(folder.dir, "uploads")
const now = new Date("2026-11-28T12:00:00Z")
const nothing = { rejectedRows: 0, uploads: 0, sessions: 0, links: 0, failures: 0 }
let store: TestStore
let userId: string

beforeAll(async () => {
  store = await openStore()
  mkdirSync(uploads)
  userId = (await store.prisma.user.create({ data: { userName: "ada", name: "Ada", roles: [] } })).id
})

beforeEach(async () => {
  await store.prisma.rejectedRow.deleteMany()
  await store.prisma.import.deleteMany()
  await store.prisma.session.deleteMany()
  await store.prisma.oneTimeLink.deleteMany()
  await store.prisma.signInFailure.deleteMany()
  await store.prisma.setting.deleteMany()
})

afterAll(async () => {
  await store.close()
  folder.close()
})

function daysAgo(days: number): Date {
  return new Date(now.getTime() - days * 24 * 60 * 60_000)
}

function run() {
  return prune({ client: store.prisma, dataDir: folder.dir, by: commandActor(), now })
}

async function importOf(days: number, more: { status?: string; uploadPath?: string } = {}): Promise<number> {
  const row = await store.prisma.import.create({
    data: {
      ...{ source: "extract", status: more.status ?? "done", asOf: now, uploadPath: more.uploadPath ?? null },
      ...{ startedAt: daysAgo(days), finishedAt: daysAgo(days) },
    },
  })
  await store.prisma.rejectedRow.create({
    data: { importId: row.id, file: "visits.csv", line: 2, code: "unreadable", message: "x", original: "y" },
  })
  return row.id
}

function session(name: string, times: { endedAt?: Date; endsAt: Date }) {
  return store.prisma.session.create({
    data: {
      ...{ tokenHash: Buffer.from(name), userId, stage: "full", method: "password", agent: "", address: "" },
      ...{ createdAt: daysAgo(400), lastSeenAt: daysAgo(400), provenAt: daysAgo(400), ...times },
    },
  })
}

describe("rejected rows", () => {
  test("go after the days of the setting, their import and its counts stay", async () => {
    const old = await importOf(366)
    const young = await importOf(364)

    expect(await run()).toEqual({ ...nothing, rejectedRows: 1 })

    const left = await store.prisma.rejectedRow.findMany()
    expect(left.map((row) => row.importId)).toEqual([young])
    expect(await store.prisma.import.count({ where: { id: { in: [old, young] } } })).toBe(2)
  })

  test("go earlier when the clinic says so", async () => {
    await importOf(11)
    await store.prisma.setting.create({ data: { key: "keep.rejectedDays", value: 10 } })

    expect(await run()).toEqual({ ...nothing, rejectedRows: 1 })
  })
})

describe("uploads", () => {
  test("of an import that waits too long for an answer go, and it is declined", async () => {
    const file = path.join(uploads, "old.zip")
    writeFileSync(file, "x")
    utimesSync(file, daysAgo(31), daysAgo(31))
    const id = await importOf(31, { status: "asks", uploadPath: file })

    expect(await run()).toEqual({ ...nothing, uploads: 1 })

    expect(existsSync(file)).toBe(false)
    expect(await store.prisma.import.findUniqueOrThrow({ where: { id } })).toMatchObject({
      ...{ status: "refused", uploadPath: null },
      message: "Nobody answered in the time that uploads are kept. Nothing was stored.",
    })
  })

  test("of an import that asks since yesterday stay, and so does one that just arrives", async () => {
    const asked = path.join(uploads, "asked.zip")
    const arriving = path.join(uploads, "arriving.zip")
    const stray = path.join(uploads, "stray.zip")
    for (const file of [asked, arriving, stray]) writeFileSync(file, "x")
    for (const file of [asked, stray]) utimesSync(file, daysAgo(1), daysAgo(1))
    utimesSync(arriving, now, now)
    await importOf(1, { status: "asks", uploadPath: asked })

    expect(await run()).toEqual(nothing)

    expect([asked, arriving, stray].map((file) => existsSync(file))).toEqual([true, true, false])
  })
})

test("ended and expired sessions go after their days, live ones never", async () => {
  await session("ended long ago", { endedAt: daysAgo(91), endsAt: daysAgo(-1) })
  await session("expired long ago", { endsAt: daysAgo(91) })
  await session("ended lately", { endedAt: daysAgo(89), endsAt: daysAgo(89) })
  await session("live", { endsAt: daysAgo(-1) })

  expect(await run()).toEqual({ ...nothing, sessions: 2 })

  const left = await store.prisma.session.findMany()
  expect(left.map((one) => Buffer.from(one.tokenHash).toString()).sort()).toEqual(["ended lately", "live"])
})

test("used and expired links go with them", async () => {
  const link = (name: string, times: { usedAt?: Date; endsAt: Date }) =>
    store.prisma.oneTimeLink.create({
      data: { tokenHash: Buffer.from(name), purpose: "reset", userId, createdAt: daysAgo(92), ...times },
    })
  await link("used", { usedAt: daysAgo(91), endsAt: daysAgo(91) })
  await link("expired", { endsAt: daysAgo(91) })
  await link("open", { endsAt: daysAgo(-1) })

  expect(await run()).toEqual({ ...nothing, links: 2 })
})

test("failed sign-ins go when they slow nobody any more", async () => {
  const failure = (scope: string, days: number) =>
    store.prisma.signInFailure.create({
      data: { scope, count: 120, lastAt: daysAgo(days), waitUntil: daysAgo(days) },
    })
  await failure("account:old", 367)
  await failure("account:young", 365)

  expect(await run()).toEqual({ ...nothing, failures: 1 })
})

test("what was removed is on record, and nothing is recorded for nothing", async () => {
  await importOf(400)
  const entries = () =>
    store.prisma.auditEntry.findMany({ where: { action: "old.remove" }, orderBy: { seq: "asc" } })
  const before = await entries()

  await run()
  await run()

  const after = (await entries()).slice(before.length)
  expect(after).toMatchObject([{ outcome: "done", detail: { ...nothing, rejectedRows: 1 } }])
})

test("the audit log is never removed by age", async () => {
  const before = await store.prisma.auditEntry.count()

  await prune({ client: store.prisma, dataDir: folder.dir, by: commandActor(), now: daysAgo(-9000) })

  expect(await store.prisma.auditEntry.count()).toBeGreaterThanOrEqual(before)
})

test("the command does it, and says how much", async () => {
  await importOf(4000)

  const finished = await filtrate(["prune"], { DATABASE_URL: store.url, FILTRATE_DATA: folder.dir })

  expect(finished.stderr).toBe("")
  expect(finished.stdout).toMatch(/^Removed: 1 rejected rows, 0 uploads, /)
})
