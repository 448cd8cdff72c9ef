import { afterAll, beforeAll, beforeEach, expect, test } from "vitest"
import { sessionLimits } from "../../../lib/access/session-limits"
import { ensurePersonas } from "../../../lib/store/demo-personas"
import {
  beginSession,
  endSession,
  endSessionsOf,
  findCaller,
  findHalfSignedIn,
} from "../../../lib/store/sessions"
import { openStore, type TestStore } from "../../helpers/open-store"

const start = new Date("2026-03-02T08:00:00Z")
const after = (ms: number) => new Date(start.getTime() + ms)
const browser = { agent: "test", address: "127.0.0.1" }

let store: TestStore
let userId: string

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Clinic", timeZone: "UTC" } })
})

afterAll(() => store.close())

beforeEach(async () => {
  await store.prisma.session.deleteMany()
  await store.prisma.user.deleteMany()
  const user = await store.prisma.user.create({ data: { userName: "ada", name: "Ada", roles: ["nurse"] } })
  userId = user.id
})

test("a token speaks for the one who signed in, and the store holds nothing that opens", async () => {
  const token = await begin()

  expect(await who(token, start)).toBe("Ada")
  const rows = await store.client.query("select row_to_json(s)::text as text from sessions s")
  expect(JSON.stringify(rows.rows)).not.toContain(token)
})

test("every session has a token of its own, 32 random bytes", async () => {
  const tokens = [await begin(), await begin()]

  expect(new Set(tokens).size).toBe(2)
  for (const token of tokens) expect(Buffer.from(token, "base64url")).toHaveLength(32)
})

test("idle for the limit it is over, a moment before it is not", async () => {
  const token = await begin()

  expect(await who(token, after(sessionLimits.idleMs - 1))).toBe("Ada")
  expect(await who(token, after(sessionLimits.idleMs))).toBeNull()
})

test("what a person does keeps it, a screen that asks by itself does not", async () => {
  const token = await begin()
  const later = after(sessionLimits.idleMs - 1000)

  await findCaller(store.prisma, { token, now: later, isActive: false })
  expect(await who(token, after(sessionLimits.idleMs + 1))).toBeNull()
  await findCaller(store.prisma, { token, now: later, isActive: true })
  expect(await who(token, after(sessionLimits.idleMs + 1))).toBe("Ada")
})

test("past its absolute end it is over, however busy", async () => {
  const token = await begin()
  for (let ms = 0; ms < sessionLimits.absoluteMs; ms += sessionLimits.idleMs / 2)
    await findCaller(store.prisma, { token, now: after(ms), isActive: true })

  expect(await who(token, after(sessionLimits.absoluteMs - 1))).toBe("Ada")
  expect(await who(token, after(sessionLimits.absoluteMs))).toBeNull()
})

test("ended it stays ended, and the others of the person go on", async () => {
  const [here, elsewhere] = [await begin(), await begin()]

  await endSession(store.prisma, { token: here, reason: "signed out", now: start })

  expect(await who(here, start)).toBeNull()
  expect(await who(elsewhere, start)).toBe("Ada")
})

test("all of a person's end together, but for the one that asks", async () => {
  const [here, elsewhere] = [await begin(), await begin()]
  const caller = await findCaller(store.prisma, { token: here, now: start, isActive: false })

  await endSessionsOf(store.prisma, {
    ...{ userId, reason: "signed out everywhere", now: start },
    except: caller?.session.id ?? "",
  })

  expect(await who(here, start)).toBe("Ada")
  expect(await who(elsewhere, start)).toBeNull()
})

test("beyond the number at once the oldest ends", async () => {
  const tokens: string[] = []
  for (let i = 0; i <= sessionLimits.atOnce; i += 1) tokens.push(await begin(after(i)))

  expect(await Promise.all(tokens.map((token) => who(token, after(100))))).toEqual([
    null,
    "Ada",
    "Ada",
    "Ada",
  ])
})

test("someone disabled is nobody at once", async () => {
  const token = await begin()

  await store.prisma.user.update({ where: { id: userId }, data: { disabledAt: start } })

  expect(await who(token, start)).toBeNull()
})

test("with the second factor owed a token opens nothing, and not for long", async () => {
  const token = await beginSession(store.prisma, {
    ...{ userId, method: "password", stage: "factor", now: start },
    ...browser,
  })

  expect(await who(token, start)).toBeNull()
  expect(await findHalfSignedIn(store.prisma, { token, now: start })).toEqual({
    ...{ userId, userName: "ada", method: "password" },
  })
  expect(await findHalfSignedIn(store.prisma, { token, now: after(sessionLimits.factorMs) })).toBeNull()
})

test("a full session is no half one", async () => {
  expect(await findHalfSignedIn(store.prisma, { token: await begin(), now: start })).toBeNull()
})

test("an invented person is nobody once the clinic holds an extract of its own", async () => {
  await store.prisma.clinic.update({ where: { id: 1 }, data: { isDemo: true } })
  await ensurePersonas(store.prisma)
  const persona = await store.prisma.user.findFirstOrThrow({ where: { isDemo: true } })
  const token = await beginSession(store.prisma, {
    ...{ userId: persona.id, method: "demo", stage: "full", now: start },
    ...browser,
  })
  expect(await who(token, start)).toBe(persona.name)

  await store.prisma.import.create({ data: { source: "real", status: "done", asOf: start } })

  expect(await who(token, start)).toBeNull()
  await store.prisma.import.deleteMany()
  await store.prisma.clinic.update({ where: { id: 1 }, data: { isDemo: false } })
})

test("a clinic that is no demo gets no invented people", async () => {
  await ensurePersonas(store.prisma)

  expect(await store.prisma.user.count({ where: { isDemo: true } })).toBe(0)
})

function begin(now = start): Promise<string> {
  return beginSession(store.prisma, { ...{ userId, method: "password", stage: "full", now }, ...browser })
}

async function who(token: string, now: Date): Promise<string | null> {
  const caller = await findCaller(store.prisma, { token, now, isActive: false })
  return caller?.name ?? null
}
