import { afterAll, beforeAll, beforeEach, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import {
  endEmergency,
  findEmergency,
  listEmergencies,
  openEmergency,
  reviewEmergency,
} from "../../../lib/store/emergencies"
import { openStore, type TestStore } from "../../helpers/open-store"

let store: TestStore
let nurse: Caller
let lead: Caller
const now = new Date("2026-10-31T10:00:00Z")
const later = (minutes: number) => new Date(now.getTime() + minutes * 60_000)

beforeAll(async () => {
  store = await openStore()
  nurse = await callerFor("Noor Haddad", "nurse")
  lead = await callerFor("Ingrid Sollie", "clinic-lead")
})

beforeEach(() => store.client.query("delete from emergency_accesses"))

afterAll(() => store.close())

async function callerFor(name: string, role: string): Promise<Caller> {
  const user = await store.prisma.user.create({ data: { userName: role, name, roles: [role] } })
  const { id: userId, userName, roles, grants, isDemo, staffId, sites } = user
  const at = { createdAt: now, lastSeenAt: now, endsAt: later(60), provenAt: now }
  const session = { id: "00", method: "password", address: "", ...at }
  return { userId, userName, name, roles, grants, isDemo, staffId, sites, session }
}

const opened = () =>
  openEmergency(store.prisma, { caller: nurse, reason: "collapsed in the waiting room", now })

test("lasts an hour, for the person who opened it alone", async () => {
  await opened()

  const asked = (userId: string, minutes: number) =>
    findEmergency(store.prisma, { userId, now: later(minutes) })
  expect(await asked(nurse.userId, 0)).toMatchObject({ endsAt: later(60) })
  expect(await asked(nurse.userId, 59)).not.toBeNull()
  expect(await asked(nurse.userId, 60)).toBeNull()
  expect(await asked(lead.userId, 1)).toBeNull()
})

test("can be ended before its hour", async () => {
  await opened()
  await endEmergency(store.prisma, { caller: nurse, now: later(5) })

  expect(await findEmergency(store.prisma, { userId: nurse.userId, now: later(5) })).toBeNull()
  expect(await listEmergencies(store.prisma)).toMatchObject([{ startsAt: now, endsAt: later(5) }])
})

test("waits for a review, with its reason, and is signed off once, by another person", async () => {
  await opened()
  const [waiting] = await listEmergencies(store.prisma)
  const id = waiting?.id ?? 0
  const review = (caller: Caller, note: string) =>
    reviewEmergency(store.prisma, { id, caller, note, now: later(90) })

  expect(waiting).toMatchObject({
    name: "Noor Haddad",
    reason: "collapsed in the waiting room",
    reviewedAt: null,
  })
  expect(await review(nurse, "fine")).toBe(false)
  expect(await review(lead, "seen, justified")).toBe(true)
  expect(await review(lead, "again")).toBe(false)
  expect(await listEmergencies(store.prisma)).toMatchObject([
    { reviewedAt: later(90), reviewedBy: "Ingrid Sollie", reviewNote: "seen, justified" },
  ])
})

test("stands in the audit log with its reason, opened and reviewed", async () => {
  const before = await store.prisma.auditEntry.count()
  await opened()
  const [waiting] = await listEmergencies(store.prisma)
  await reviewEmergency(store.prisma, {
    ...{ id: waiting?.id ?? 0, caller: lead, note: "seen, justified", now: later(90) },
  })

  const entries = await store.prisma.auditEntry.findMany({ orderBy: { seq: "asc" }, skip: before })
  expect(entries).toMatchObject([
    { action: "emergency.open", actor: nurse.userId, purpose: "collapsed in the waiting room" },
    { action: "emergency.review", actor: lead.userId, purpose: "seen, justified" },
  ])
})
