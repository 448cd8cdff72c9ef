import { randomUUID } from "node:crypto"
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest"
import { enrolFactor } from "../../../lib/auth/enrol-factor"
import { recordFailedCode } from "../../../lib/auth/failed-code"
import { proposeSeed } from "../../../lib/auth/second-factor"
import { seedText } from "../../../lib/auth/totp"
import { findAccountById, type Account } from "../../../lib/store/accounts"
import type { Actor } from "../../../lib/store/audit-actors"
import { removeDrugNameMapping, saveDrugNameMapping } from "../../../lib/store/drug-name-mappings"
import { endOwnSession } from "../../../lib/store/own-sessions"
import { beginSession, endSession, endSessionsOf } from "../../../lib/store/sessions"
import { saveSettings } from "../../../lib/store/settings"
import { codeOf } from "../../helpers/authenticator"
import { openStore, type TestStore } from "../../helpers/open-store"

const now = new Date("2026-10-31T12:00:00Z")
const by: Actor = {
  ...{ actor: randomUUID(), actorName: "Ada Lead", roles: ["clinic-lead"], session: "ab" },
  ...{ origin: "site", address: "127.0.0.1" },
}

let store: TestStore
let account: Account
let last: bigint

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Kidney clinic", timeZone: "UTC" } })
  const { id } = await store.prisma.user.create({ data: { userName: "ben", name: "Ben", roles: ["nurse"] } })
  const found = await findAccountById(store.prisma, id)
  if (!found) throw new Error("the account is there")
  account = found
})

beforeEach(async () => {
  last = (await store.prisma.auditEntry.aggregate({ _max: { seq: true } }))._max.seq ?? 0n
})

afterAll(() => store.close())

/** What was recorded since the test began. */
function recorded() {
  return store.prisma.auditEntry.findMany({ where: { seq: { gt: last } }, orderBy: { seq: "asc" } })
}

function begin(stage: "full" | "factor" = "full"): Promise<string> {
  const about = { userId: account.id, method: "password", agent: "", address: "10.0.0.7" } as const
  return beginSession(store.prisma, { ...about, stage, now })
}

test("a change of settings, with its reason and what stands now; one that is refused or changes nothing leaves no entry", async () => {
  const save = (texts: Record<string, string>) =>
    saveSettings(store.prisma, { texts, by, reason: "the board decided", now })
  await save({ "bp.systolicTarget": "120" })
  await save({ "bp.systolicTarget": "120" })
  await save({ "bp.systolicTarget": "9" })

  expect(await recorded()).toMatchObject([
    {
      ...{ actorName: "Ada Lead", action: "settings.change", purpose: "the board decided" },
      detail: { "bp.systolicTarget": 120 },
    },
  ])
})

test("a mapping of a drug text, without the text, which may name anybody", async () => {
  const text = "lisinopril for Mrs Canary"
  await saveDrugNameMapping(store.prisma, { text, ingredients: ["lisinopril"], isIgnored: false, by })
  await removeDrugNameMapping(store.prisma, { text, by })
  await removeDrugNameMapping(store.prisma, { text, by })

  const entries = await recorded()
  expect(entries.map((one) => one.action)).toEqual(["drug-text.map", "drug-text.unmap"])
  expect(new Set(entries.map((one) => one.objectId)).size).toBe(1)
  expect(
    JSON.stringify(entries, (_key, value) => (typeof value === "bigint" ? `${value}` : value)),
  ).not.toMatch(/canary/i)
})

test("the end of a session, under its person, with why", async () => {
  const [one, , third] = [await begin(), await begin(), await begin()]
  await endSession(store.prisma, { token: one, reason: "signed out", now })
  await endSession(store.prisma, { token: one, reason: "signed out", now })
  const id = Buffer.from(
    (await store.prisma.session.findFirstOrThrow({ where: { endedAt: null } })).tokenHash,
  ).toString("hex")
  await endOwnSession(store.prisma, { userId: account.id, id, by, now })
  await endOwnSession(store.prisma, { userId: account.id, id, by, now })
  await endSessionsOf(store.prisma, { userId: account.id, reason: "password changed", now })

  expect(third).not.toBe(one)
  expect(await recorded()).toMatchObject([
    { action: "sign-out", actor: account.id, address: "10.0.0.7", detail: { reason: "signed out" } },
    { action: "session.end", actor: by.actor, object: "session", objectId: id },
    { action: "session.end", actor: account.id, detail: { reason: "password changed" } },
  ])
})

test("a session that ends because one too many began; one that still owed its second factor leaves no entry", async () => {
  for (let more = 0; more < 4; more += 1) await begin()
  const half = await begin("factor")
  await endSession(store.prisma, { token: half, reason: "too many codes", now })

  expect(await recorded()).toMatchObject([{ action: "session.end", detail: { reason: "too many at once" } }])
})

test("a code that was not right, and the first second factor once it was", async () => {
  const key = Buffer.alloc(32, 7)
  const { seed, sealed } = proposeSeed(key, account.id)
  const enrol = (code: string) =>
    enrolFactor(store.prisma, { account, sealed, code, key, address: "10.0.0.7", now })
  await recordFailedCode(store.prisma, { account, address: "10.0.0.7", isSlowed: true })

  expect(await enrol("000000")).toBe(false)
  expect(await enrol(codeOf(seedText(seed), now.getTime()))).toBe(true)

  expect(await recorded()).toMatchObject([
    {
      ...{ action: "sign-in.fail", outcome: "refused", objectId: account.id, address: "10.0.0.7" },
      detail: { step: "second factor", isSlowed: true },
    },
    { action: "factor.change", objectId: account.id, detail: { what: "authenticator" } },
  ])
})
