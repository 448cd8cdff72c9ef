import { randomUUID } from "node:crypto"
import { parse } from "csv-parse/sync"
import { afterAll, beforeAll, expect, test } from "vitest"
import { auditCsv } from "../../../lib/export/audit-csv"
import { hashPeople } from "../../../lib/store/audit"
import {
  allAuditEntries,
  countAuditEntries,
  listAuditActors,
  listAuditEntries,
  type AuditFilter,
} from "../../../lib/store/audit-log"
import { reviewAudit } from "../../../lib/store/audit-review"
import { openStore, type TestStore } from "../../helpers/open-store"

const everything: AuditFilter = {
  ...{ from: null, to: null, actor: null, action: null, outcome: null, patient: null },
  timeZone: "America/Chicago",
}
const somebody = "0b5c1a6e-9d3f-4c53-8a55-2f3ad6a2c001"

let store: TestStore

beforeAll(async () => {
  store = await openStore()
  // Chicago is five hours behind UTC in summer: the first stands on 5 June, the second on 6 June.
  await add({ by: "ada", at: "2026-06-06T04:59:00Z", people: [somebody] })
  await add({
    by: "ada",
    at: "2026-06-06T05:00:00Z",
    people: [somebody, randomUUID()],
    action: "patients.list",
  })
  await add({
    by: "ben",
    at: "2026-06-07T15:00:00Z",
    objectId: somebody,
    outcome: "not found",
    action: "access.refuse",
  })
  await add({
    by: "ruth",
    at: "2026-06-08T15:00:00Z",
    object: "user",
    objectId: "ben",
    action: "user.change",
  })
  await add({ by: "ada", at: "2026-06-08T16:00:00Z", action: "settings.change", purpose: "=1+1" })
})

afterAll(() => store.close())

type Added = {
  by: string
  at: string
  people?: readonly string[]
  action?: string
  outcome?: string
  object?: string
  objectId?: string
  purpose?: string
}

/** An entry of a given moment, which only the owner of the database can make. */
async function add(entry: Added): Promise<void> {
  const { by, at, people = [], action = "patient.open", outcome = "done", object, objectId, purpose } = entry
  const hash = people.length === 0 ? null : Buffer.from(hashPeople(people.toSorted()))
  if (hash)
    await store.client.query(
      "insert into audit_people select $1, id from unnest($2::uuid[]) as one (id) on conflict do nothing",
      [hash, people],
    )
  await store.client.query(
    `insert into audit_entries (at, actor, actor_name, roles, origin, action, outcome, object, object_id, purpose, people, people_hash)
     values ($1, $2, initcap($2), '{nurse}', 'site', $3, $4, $5, $6, $7, $8, $9)`,
    [at, by, action, outcome, object, objectId, purpose, people.length, hash],
  )
}

async function seqs(filter: Partial<AuditFilter>): Promise<number[]> {
  const asked = { ...everything, ...filter }
  const rows = await listAuditEntries(store.prisma, { filter: asked, take: 10, before: null })
  expect(await countAuditEntries(store.prisma, asked)).toBe(rows.length)
  return rows.map((row) => Number(row.seq))
}

test.each([
  [{}, [5, 4, 3, 2, 1]],
  [{ from: "2026-06-06" }, [5, 4, 3, 2]],
  [{ to: "2026-06-05" }, [1]],
  [{ from: "2026-06-06", to: "2026-06-07" }, [3, 2]],
  [{ actor: "ada" }, [5, 2, 1]],
  [{ actor: "ben" }, [4, 3]],
  [{ action: "patients.list" }, [2]],
  [{ outcome: "not found" }, [3]],
  [{ patient: somebody }, [3, 2, 1]],
  [{ patient: somebody, actor: "ada", from: "2026-06-06" }, [2]],
  [{ patient: randomUUID() }, []],
] as const)("asked for %j it answers entries %j, latest first", async (filter, expected) => {
  expect(await seqs(filter)).toEqual(expected)
})

test("an entry of one person names them by their opaque id; one of several counts them", async () => {
  const rows = await listAuditEntries(store.prisma, { filter: everything, take: 2, before: 3n })

  expect(rows).toMatchObject([
    { seq: 2n, people: 2, person: null, actorName: "Ada" },
    { seq: 1n, people: 1, person: somebody },
  ])
})

test("everybody who stands in it is listed once", async () => {
  expect(await listAuditActors(store.prisma)).toEqual([
    { actor: "ada", name: "Ada" },
    { actor: "ben", name: "Ben" },
    { actor: "ruth", name: "Ruth" },
  ])
})

test("as a file it has every entry, and no cell that a spreadsheet would run", async () => {
  let text = ""
  for await (const piece of auditCsv(allAuditEntries(store.prisma, everything))) text += piece

  const rows: Record<string, string>[] = parse(text, { columns: true })
  expect(rows.map((row) => row.seq)).toEqual(["5", "4", "3", "2", "1"])
  expect(rows[0]).toMatchObject({ actor: "ada", action: "settings.change", purpose: "'=1+1", detail: "{}" })
  expect(rows[4]).toMatchObject({ at: "2026-06-06T04:59:00.000Z", people: "1", person: somebody })
  expect(rows[4]?.hash).toMatch(/^[0-9a-f]{64}$/)
})

// Ada opens 1, 2 and 6 people on three days: her median is 2, so the day of 6 stands above it and that of 2 does not.
test("a day is held against the same person's own median, people counted once a day", async () => {
  const people = Array.from({ length: 6 }, () => randomUUID())
  for (const [day, opened] of [
    ["2026-07-06", people.slice(0, 1)],
    ["2026-07-07", [...people.slice(0, 2), ...people.slice(0, 2)]],
    ["2026-07-08", people],
  ] as const)
    for (const one of opened) await add({ by: "ada", at: `${day}T15:00:00Z`, people: [one] })
  await add({ by: "ben", at: "2026-07-08T15:00:00Z", people: [somebody] })

  const { busy, afterHours } = await reviewAudit(store.prisma, july)

  expect(busy).toEqual([{ actor: "ada", name: "Ada", day: "2026-07-08", people: 6, median: 2, days: 3 }])
  expect(afterHours).toEqual([])
})

// 11 and 12 July 2026 are a Saturday and a Sunday; six in the morning in Chicago is 11:00 UTC, eight in the evening 01:00.
test("openings before six, from eight in the evening, and at a weekend are counted a person", async () => {
  const open = (at: string, one = somebody) => add({ by: "ben", at, people: [one] })
  await open("2026-07-13T10:59:00Z")
  await open("2026-07-13T11:00:00Z")
  await open("2026-07-14T00:59:00Z")
  await open("2026-07-14T01:00:00Z", randomUUID())
  await open("2026-07-12T15:00:00Z")

  expect((await reviewAudit(store.prisma, july)).afterHours).toEqual([
    { actor: "ben", name: "Ben", openings: 3, people: 2, lastAt: new Date("2026-07-14T01:00:00Z") },
  ])
})

test("files of people are counted a person, with the people in them", async () => {
  await add({
    by: "ada",
    at: "2026-07-20T15:00:00Z",
    people: [somebody, randomUUID()],
    action: "patients.export",
  })
  await add({ by: "ada", at: "2026-07-21T15:00:00Z", people: [somebody], action: "visits.export" })
  await add({ by: "ada", at: "2026-08-01T15:00:00Z", people: [somebody], action: "patients.export" })

  expect((await reviewAudit(store.prisma, july)).taken).toEqual([
    { actor: "ada", name: "Ada", files: 2, people: 3, lastAt: new Date("2026-07-21T15:00:00Z") },
  ])
})

const july = { from: "2026-07-01", to: "2026-07-31", timeZone: "America/Chicago" } as const
