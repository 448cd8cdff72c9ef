import fc from "fast-check"
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { z } from "zod"
import type { Caller } from "../../../lib/access/caller"
import type { Scope } from "../../../lib/access/scope"
import { Settings } from "../../../lib/domain/settings"
import { buildSnapshot } from "../../../lib/engine/build"
import { askOn, onSnapshot } from "../../../lib/engine/run"
import { enterByHand, withdrawEntry } from "../../../lib/jobs/enter-by-hand"
import { actorOf } from "../../../lib/store/audit-actors"
import { openClient } from "../../../lib/store/client"
import { ensureDatabaseRoles, type RoleUrls } from "../../../lib/store/database-roles"
import { erasePerson } from "../../../lib/store/erase-person"
import type { PrismaClient } from "../../../lib/store/generated/client"
import { listHandEntries, type HandKind } from "../../../lib/store/hand-entries"
import { readPersonFacts } from "../../../lib/store/person-facts"
import { counts, importExtract, openFolder, type ExtractFiles } from "../../helpers/extract"
import { clearStore } from "../../helpers/ledger-rows"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore
let urls: RoleUrls
let app: PrismaClient
let publicId: string

const patients = [
  "patient_id,birth_date,sex,registered_on,site",
  "P1,1960-05-01,female,2020-01-01,Riverside",
  "P2,1990-01-31,male,2021-01-01,Harbour",
]
const readingColumns = "patient_id,taken_at,systolic,diastolic,setting,pulse"
const now = new Date("2026-03-15T18:00:00Z")
const timeZone = "America/Chicago"
const whole: Scope = { sites: null, panelOf: null }

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone } })
  urls = await ensureDatabaseRoles({ url: store.url, dataDir: folder.dir, appUrl: undefined })
  app = openClient(urls.app)
})
beforeEach(async () => {
  await clearStore(store)
  await importExtract(store, folder.dir, { patients })
  publicId = (await store.prisma.patient.findUniqueOrThrow({ where: { patientId: "P1" } })).publicId
})
afterAll(async () => {
  await app.$disconnect()
  await store.close()
  folder.close()
})

function callerOf(name: string, roles: string[] = ["nurse"]): Caller {
  const userId = `00000000-0000-4000-8000-${name.length.toString().padStart(12, "0")}`
  const session = { id: "ab", method: "password", address: "", createdAt: now, lastSeenAt: now }
  return {
    ...{ userId, userName: name, name, roles, grants: [], isDemo: false, staffId: null, sites: [] },
    session: { ...session, endsAt: now, provenAt: now },
  }
}

/** The site's own role asks and that of imports stores, as where it runs. */
const site = () => ({ client: app, importUrl: urls.import, dataDir: folder.dir })
const nurse = callerOf("Noor")

function enter(kind: HandKind, rows: Record<string, string>[], scope = whole) {
  const asked = { scope, caller: nurse, publicId, kind, now, timeZone }
  return enterByHand(site(), { ...asked, rows })
}

function withdraw(importId: number, caller = nurse) {
  return withdrawEntry(site(), { scope: whole, caller, publicId, now, timeZone, importId })
}

function later(files: ExtractFiles, isFull: boolean) {
  return importExtract(store, folder.dir, files, {
    ...{ isFull, isAccepted: true, now: new Date("2026-03-20T18:00:00Z") },
  })
}

const home = (taken_at: string, systolic = "132", diastolic = "84", pulse = "") => ({
  ...{ taken_at, systolic, diastolic, setting: "home", pulse },
})
const record = { recorded_on: "2026-03-10", method: "recall_24h", sodium_mg: "2400", potassium_mg: "" }
const methodWords = "must be one of: recall_24h, food_record, food_frequency"
const inForce = () => store.prisma.reading.findMany({ where: { endedAt: null }, orderBy: { takenAt: "asc" } })

describe("what is typed", () => {
  test("is kept as the row of an extract would be, with who typed it", async () => {
    const answer = await enter("readings", [home("2026-03-14T08:00"), home("2026-03-14T08:00:30", "130")])

    expect(answer).toMatchObject({ is: "done", rows: 2 })
    const [first] = await inForce()
    // Chicago is five hours behind UTC from 8 March 2026 on (IANA time zone database).
    expect(first?.takenAt.toISOString()).toBe("2026-03-14T13:00:00.000Z")
    expect(first).toMatchObject({ patientId: "P1", setting: "home", line: 2, isDateOnly: false })
    expect(await listHandEntries(store.prisma, { scope: whole, publicId })).toMatchObject([
      { kind: "readings", enteredBy: "Noor", from: "2026-03-14", to: "2026-03-14", rows: 2, rowsInForce: 2 },
    ])
    const entries = await store.prisma.auditEntry.findMany({ where: { actor: nurse.userId } })
    expect(entries.map((one) => one.action)).toEqual(["import.store", "readings.enter"])
  })

  test("as a diet record is kept, too", async () => {
    expect(await enter("diet", [record])).toMatchObject({ is: "done" })
    expect(await store.prisma.dietRecord.findMany()).toMatchObject([
      { patientId: "P1", method: "recall_24h", potassiumMg: null, endedAt: null },
    ])
  })

  // The limits and words are those of the contract's rules 1 and 8.
  test.each<[HandKind, string, string, Record<string, string>]>([
    ["readings", "systolic", "must be from 50 to 300 mmHg", home("2026-03-14T08:00", "301")],
    ["readings", "diastolic", "must be from 20 to 200 mmHg", home("2026-03-14T08:00", "120", "19")],
    ["readings", "systolic", "must be above the diastolic pressure", home("2026-03-14T08:00", "80", "80")],
    ["readings", "diastolic", "is empty, and every row needs it", home("2026-03-14T08:00", "120", "")],
    ["readings", "taken_at", "lies in the future (after 2026-03-16)", home("2026-03-17T08:00")],
    ["readings", "taken_at", "lies before the patient's birth", home("1960-04-30T08:00")],
    ["diet", "sodium_mg", "must be from 100 to 20000 mg", { ...record, sodium_mg: "99" }],
    ["diet", "recorded_on", "is empty, and every row needs it", { ...record, recorded_on: "" }],
    ["diet", "method", methodWords, { ...record, method: "memory" }],
  ])("of %s that cannot be is told at %s: %s. Nothing is stored", async (kind, column, message, row) => {
    const good = kind === "readings" ? home("2026-03-13T08:00") : { ...record, recorded_on: "2026-03-09" }
    const answer = await enter(kind, [good, row])

    expect(answer).toEqual({ is: "wrong", problems: [{ row: 1, column, message }] })
    expect(await inForce()).toEqual([])
    expect(await store.prisma.dietRecord.count()).toBe(0)
  })

  test("of somebody out of scope is nobody's", async () => {
    const elsewhere = { sites: ["Harbour"], panelOf: null }

    expect(await enter("readings", [home("2026-03-14T08:00")], elsewhere)).toEqual({ is: "gone" })
    expect(await inForce()).toEqual([])
  })

  test("twice is told and not doubled, whether an extract or a person brought the first", async () => {
    await importExtract(store, folder.dir, {
      readings: [readingColumns, "P1,2026-03-12T08:00,128,76,home,"],
    })
    await enter("readings", [home("2026-03-14T08:00")])
    const again = [home("2026-03-12T08:00"), home("2026-03-14T08:00", "140"), home("2026-03-14T20:00")]

    expect(await enter("readings", [...again, home("2026-03-14T20:00", "150")])).toMatchObject({
      problems: [
        { row: 0, column: "taken_at", message: expect.stringContaining("on record already") },
        { row: 1, column: "taken_at", message: expect.stringContaining("on record already") },
        { row: 3, column: "taken_at", message: expect.stringContaining("stands here twice") },
      ],
    })
    await enter("diet", [record])
    expect(await enter("diet", [{ ...record, sodium_mg: "3000" }])).toMatchObject({
      problems: [
        {
          row: 0,
          column: "recorded_on",
          message: "has a diet record by this method already; it is not stored again",
        },
      ],
    })
    expect(await inForce()).toHaveLength(2)
  })

  test("by two at the same moment is stored once", async () => {
    const rows = [home("2026-03-14T08:00")]
    await Promise.all([enter("readings", rows), enter("readings", rows)])

    expect(await inForce()).toHaveLength(1)
  })
})

describe("beside an extract", () => {
  const readings = [readingColumns, "P1,2026-03-12T08:00,128,76,home,", "P1,2026-03-14T08:00,140,90,office,"]
  const diet = ["patient_id,recorded_on,method,sodium_mg", "P1,2026-02-10,recall_24h,2000"]

  test("what was typed stays when a later full extract does not have it", async () => {
    await importExtract(store, folder.dir, { readings, diet })
    await enter("readings", [home("2026-03-14T08:00")])
    await enter("diet", [record])
    const outcome = await later({ patients, readings: readings.slice(0, 2), diet }, true)

    expect(outcome.files.find((one) => one.kind === "readings")?.notes.withdrawnByFull).toBe(1)
    expect((await inForce()).map((one) => one.setting)).toEqual(["home", "home"])
    expect(await store.prisma.dietRecord.count({ where: { endedAt: null } })).toBe(2)
  })

  test("what was typed ends nothing of the extract, and the same extract changes nothing after it", async () => {
    await importExtract(store, folder.dir, { readings, diet })
    await enter("readings", [home("2026-03-13T08:00")])
    await enter("diet", [record])

    expect(await store.prisma.reading.count({ where: { endedAt: { not: null } } })).toBe(0)
    const outcome = await later({ readings, diet }, true)
    expect(counts(outcome, "readings")).toMatchObject({ added: 0, changed: 0, unchanged: 2 })
    expect(counts(outcome, "diet")).toMatchObject({ added: 0, changed: 0, unchanged: 1 })
    expect(await inForce()).toHaveLength(3)
  })
})

describe("taking it back", () => {
  test("ends its rows and keeps them; it can be typed again", async () => {
    const made = await enter("readings", [home("2026-03-14T08:00"), home("2026-03-14T20:00")])
    const importId = made.is === "done" ? made.importId : 0

    expect(await withdraw(importId)).toMatchObject({ is: "done", rows: 2 })
    expect(await store.prisma.reading.findMany()).toMatchObject([
      { endReason: "withdrawn" },
      { endReason: "withdrawn" },
    ])
    expect(await withdraw(importId)).toMatchObject({ is: "refused", words: "It was withdrawn meanwhile." })
    expect(await enter("readings", [home("2026-03-14T08:00", "140")])).toMatchObject({ is: "done" })
    expect((await inForce()).map((one) => Number(one.systolic))).toEqual([140])
  })

  test("is for who typed it or a clinic lead, and of an entry of this person alone", async () => {
    const made = await enter("diet", [record])
    const importId = made.is === "done" ? made.importId : 0

    expect(await withdraw(importId, callerOf("Another"))).toMatchObject({ is: "refused" })
    expect(await withdraw(1)).toEqual({ is: "gone" })
    expect(await withdraw(importId, callerOf("The lead", ["clinic-lead"]))).toMatchObject({ is: "done" })
    expect(await store.prisma.dietRecord.count({ where: { endedAt: null } })).toBe(0)
  })
})

test("who is handed the record gets what was typed, and where it came from", async () => {
  await enter("readings", [home("2026-03-14T08:00")])
  const files = await store.prisma.$transaction((transaction) =>
    readPersonFacts(transaction, { patientIds: ["P1"], timeZone }),
  )
  const readings = files.find((file) => file.kind === "readings")

  expect(readings?.inForce).toHaveLength(1)
  expect(readings?.inForce[0]).toContain("by hand")
})

test("the figures are built from what was typed, each value with its row, and not from what was withdrawn", async () => {
  await importExtract(store, folder.dir, {
    visits: ["visit_id,patient_id,started_on,kind", "V1,P1,2026-03-01,office"],
  })
  const made = await enter("readings", [home("2026-03-14T08:00"), home("2026-03-14T20:00", "150")])
  const importId = made.is === "done" ? made.importId : 0
  const days = async () => {
    const built = { databaseUrl: urls.snapshot, dataDir: folder.dir, builtAt: now }
    await buildSnapshot({ ...built, todayIn: () => "2026-03-15" })
    return onSnapshot({ dataDir: folder.dir, scope: whole }, (connection) => askOn(connection, homeRows))
  }

  expect(await days()).toEqual([
    { systolic: 132, source: `${importId}:2` },
    { systolic: 150, source: `${importId}:3` },
  ])
  await withdraw(importId)
  expect(await days()).toEqual([])
})

const homeRows = {
  sql: `select cast(systolic as double) as systolic, import_id || ':' || line as source
    from bp_readings where setting = 'home' order by taken_at`,
  Row: z.object({ systolic: z.number(), source: z.string() }),
}

test("erasing the person takes what was typed, too, and leaves who typed it", async () => {
  await enter("readings", [home("2026-03-14T08:00")])
  await enter("diet", [record])
  const erasure = { publicId, reason: "Asked for", basis: "Local law", askedBy: "Lead", askedAt: now }
  const { id } = await store.prisma.erasure.create({ data: erasure })
  await erasePerson(store.prisma, {
    ...{ erasureId: id, records: [{ patientId: "P1", publicId }], drugTexts: [], months: [] },
    ...{ settings: Settings.parse({}), key: Buffer.alloc(32, 1), by: actorOf(nurse), now },
  })

  expect(await store.prisma.reading.count()).toBe(0)
  expect(await store.prisma.dietRecord.count()).toBe(0)
  expect(await store.prisma.import.count({ where: { enteredBy: "Noor", source: "by hand" } })).toBe(2)
  expect(await enter("readings", [home("2026-03-14T08:00")])).toEqual({ is: "gone" })
})

test("whatever is typed is judged as the same row of an extract is", async () => {
  const cell = (...usual: string[]) =>
    fc.oneof(
      { weight: 20, arbitrary: fc.constantFrom(...usual) },
      fc.stringMatching(/^[ -~]{0,8}$/),
      fc.constantFrom("", "é", "1e2"),
    )
  const days = Array.from({ length: 15 }, (_, index) => `2026-03-${String(index + 1).padStart(2, "0")}T08:00`)
  const row = fc.record({
    taken_at: cell(...days, "2026-03-17T08:00", "1950-01-01"),
    systolic: cell("132", "150", "50", "300", "301", "+132"),
    diastolic: cell("84", "20", "45.5", "200", "19"),
    setting: cell("home", "HOME", "Home", "clinic"),
    pulse: cell("70", "", "-1"),
  })
  const rows = fc.sample(row, { numRuns: 500, seed: 7 })
  const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`
  const lines = rows.map((one) =>
    ["P1", one.taken_at, one.systolic, one.diastolic, one.setting, one.pulse].map(quoted).join(","),
  )
  const outcome = await importExtract(
    store,
    folder.dir,
    { readings: [readingColumns, ...lines] },
    { isAccepted: true },
  )
  const rejected = await store.prisma.rejectedRow.findMany({ orderBy: { line: "asc" } })
  const expected = rejected.map((one) => `${one.line - 2} ${one.columnName ?? ""} ${one.message}`)
  await store.prisma.reading.deleteMany()
  const typed = await enter("readings", rows)
  const problems = typed.is === "wrong" ? typed.problems : []

  expect(expected.length).toBeGreaterThan(100)
  expect(counts(outcome, "readings").rejected).toBeLessThan(500)
  expect(
    problems
      .filter((one) => !one.message.startsWith("stands here twice"))
      .map((one) => `${one.row} ${one.column ?? ""} ${one.message}`),
  ).toEqual(expected)
})
