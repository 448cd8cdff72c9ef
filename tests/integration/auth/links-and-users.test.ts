import { afterAll, beforeAll, beforeEach, expect, test } from "vitest"
import { acceptSeed, checkFactor, proposeSeed, renewRecoveryCodes } from "../../../lib/auth/second-factor"
import { seedText } from "../../../lib/auth/totp"
import { setupLink } from "../../../lib/auth/setup-link"
import { signIn } from "../../../lib/auth/sign-in"
import { useLink } from "../../../lib/auth/use-link"
import { commandActor } from "../../../lib/store/audit-actors"
import { beginSession, findCaller } from "../../../lib/store/sessions"
import { changeUser, inviteUser, listUsers, makeUserLink, setDisabled } from "../../../lib/store/users"
import { codeOf } from "../../helpers/authenticator"
import { openStore, type TestStore } from "../../helpers/open-store"

const password = "gnu kelp dwarf lantern oboe"
const now = new Date("2026-03-02T08:00:00Z")
const hours = (count: number) => new Date(now.getTime() + count * 3_600_000)
const by = commandActor()
const key = Buffer.alloc(32, 9)
const where = { agent: "test", address: "10.0.0.1" }
const nurse = { name: "Ben", roles: ["nurse"], grants: [], staffId: null, sites: [] } as const

let store: TestStore

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Clinic", timeZone: "UTC" } })
})

afterAll(() => store.close())

beforeEach(async () => {
  await store.prisma.session.deleteMany()
  await store.prisma.signInFailure.deleteMany()
  await store.prisma.oneTimeLink.deleteMany()
  await store.prisma.recoveryCode.deleteMany()
  await store.prisma.user.deleteMany()
})

test("the setup link makes one administrator, once, and there is none after", async () => {
  const token = await setupToken()
  const uses = await Promise.all([1, 2, 3].map((one) => use(token, { newcomer: newcomer(`ruth${one}`) })))

  expect(uses.filter((session) => session !== null)).toHaveLength(1)
  expect((await listUsers(store.prisma)).map((user) => user.roles)).toEqual([["administrator"]])
  expect(await setupLink(store.prisma, { origin: "http://x", now })).toBeNull()
})

test("a newer setup link ends the one before, and after 24 hours it is over", async () => {
  const first = await setupToken()
  const second = await setupToken()

  expect(await use(first, { newcomer: newcomer("ruth") })).toBeNull()
  expect(await use(second, { newcomer: newcomer("ruth"), now: hours(24) })).toBeNull()
  expect(await use(second, { newcomer: null })).toBeNull()
  expect(await use(second, { newcomer: newcomer("ruth"), now: hours(23) })).not.toBeNull()
})

test("the store holds no token of a link", async () => {
  const token = await setupToken()
  const rows = await store.client.query("select row_to_json(l)::text as text from one_time_links l")
  expect(JSON.stringify(rows.rows)).not.toContain(token)
})

test("an invitation sets the first password; a reset ends the sessions and keeps the second factor", async () => {
  const { id, token } = await invited()
  expect(await use(token)).not.toBeNull()
  expect((await attempt()).status).toBe("half")
  await enrol(id)
  const session = await beginSession(store.prisma, {
    userId: id,
    method: "password",
    stage: "full",
    ...where,
    now,
  })

  const reset = await makeUserLink(store.prisma, { id, purpose: "reset", by, now })
  expect(await use(reset ?? "")).not.toBeNull()
  expect(await findCaller(store.prisma, { token: session, now, isActive: true })).toBeNull()
  expect((await listUsers(store.prisma))[0]?.hasFactor).toBe(true)

  const lost = await makeUserLink(store.prisma, { id, purpose: "reset-factor", by, now })
  expect(await use(lost ?? "")).not.toBeNull()
  expect((await listUsers(store.prisma))[0]?.hasFactor).toBe(false)
})

test("a code is good once, also when it is sent twice at the same moment", async () => {
  const { id } = await invited()
  const secret = await enrol(id)
  const later = hours(1)
  const typed = codeOf(secret, later.getTime())

  const both = await Promise.all(
    [1, 2].map(() => checkFactor(store.prisma, { userId: id, typed, key, now: later })),
  )
  expect(both.sort()).toEqual(["right", "wrong"])
  expect(await checkFactor(store.prisma, { userId: id, typed, key, now: later })).toBe("wrong")
})

test("after five wrong codes the right one has to wait", async () => {
  const { id } = await invited()
  const secret = await enrol(id)
  const later = hours(1)
  for (let count = 0; count < 5; count += 1)
    expect(await checkFactor(store.prisma, { userId: id, typed: "000000", key, now: later })).toBe("wrong")

  const typed = codeOf(secret, later.getTime())
  expect(await checkFactor(store.prisma, { userId: id, typed, key, now: later })).toBe("too-many")
  const after = new Date(later.getTime() + 1000)
  expect(await checkFactor(store.prisma, { userId: id, typed, key, now: after })).toBe("right")
})

test("each of ten recovery codes is good once, however it is typed, and new ones end those before", async () => {
  const { id } = await invited()
  const codes = await renewRecoveryCodes(store.prisma, id)
  const [first = "", second = ""] = codes
  const give = (typed: string) => checkFactor(store.prisma, { userId: id, typed, key, now })

  expect(new Set(codes).size).toBe(10)
  expect(await give(first.toLowerCase().replaceAll("-", " "))).toBe("right")
  expect(await give(first)).toBe("wrong")
  await renewRecoveryCodes(store.prisma, id)
  expect(await give(second)).toBe("wrong")
})

test("a factor proposed for one person is no other's", async () => {
  const ben = await invited()
  const { seed, sealed } = proposeSeed(key, ben.id)
  const code = codeOf(seedText(seed), now.getTime())
  const other = "00000000-0000-4000-8000-000000000000"

  expect(await acceptSeed(store.prisma, { userId: other, sealed, code, key, now })).toBe(false)
  expect(await acceptSeed(store.prisma, { userId: ben.id, sealed, code, key, now })).toBe(true)
})

test("someone disabled is out at once, by session, password and link, and may be let in again", async () => {
  const { id, token } = await invited()
  await use(token)
  const session = await beginSession(store.prisma, {
    userId: id,
    method: "password",
    stage: "full",
    ...where,
    now,
  })
  const link = await makeUserLink(store.prisma, { id, purpose: "reset", by, now })

  expect(
    await setDisabled(store.prisma, { id, version: await versionOf(id), isDisabled: true, by, now }),
  ).toBe("done")
  expect(await findCaller(store.prisma, { token: session, now, isActive: true })).toBeNull()
  expect((await attempt()).status).toBe("refused")
  expect(await use(link ?? "")).toBeNull()
  expect(await makeUserLink(store.prisma, { id, purpose: "reset", by, now })).toBeNull()

  await setDisabled(store.prisma, { id, version: await versionOf(id), isDisabled: false, by, now })
  expect((await attempt()).status).toBe("half")
})

test("the last administrator keeps the role and the account, also of two who leave at the same moment", async () => {
  await use(await setupToken(), { newcomer: newcomer("ruth") })
  const [ruth] = await listUsers(store.prisma)
  const one = { id: ruth?.id ?? "", version: ruth?.version ?? 0, by, now }
  expect(await setDisabled(store.prisma, { ...one, isDisabled: true })).toBe("last-administrator")
  expect(await changeUser(store.prisma, { ...one, shape: nurse, reason: "test" })).toBe("last-administrator")

  const { token } = await invited("administrator")
  await use(token)
  const both = await listUsers(store.prisma)
  const answers = await Promise.all(
    both.map(({ id, version }) => setDisabled(store.prisma, { id, version, isDisabled: true, by, now })),
  )
  expect(answers.sort()).toEqual(["done", "last-administrator"])
})

test("who changes an account that was changed meanwhile is told", async () => {
  const { id } = await invited()
  const about = { id, version: await versionOf(id), by, now, reason: "test", shape: nurse }

  expect(await changeUser(store.prisma, about)).toBe("done")
  expect(await changeUser(store.prisma, about)).toBe("outdated")
  const again = { userName: "ben", shape: nurse, by, now }
  expect(await inviteUser(store.prisma, again)).toEqual({ status: "taken" })
})

async function setupToken(): Promise<string> {
  const link = await setupLink(store.prisma, { origin: "http://x", now })
  return link?.split("/").at(-1) ?? ""
}

function newcomer(userName: string) {
  return { userName, name: "Ruth", isLead: false }
}

function use(token: string, part: Partial<Parameters<typeof useLink>[1]> = {}): Promise<string | null> {
  return useLink(store.prisma, { token, password, newcomer: null, ...where, now, ...part })
}

async function invited(role: "nurse" | "administrator" = "nurse"): Promise<{ id: string; token: string }> {
  const shape = { ...nurse, roles: [role] }
  const answer = await inviteUser(store.prisma, { userName: "ben", shape, by, now })
  const { id } = await store.prisma.user.findUniqueOrThrow({ where: { userName: "ben" } })
  return { id, token: answer.status === "done" ? answer.token : "" }
}

/** Sets an authenticator app up and answers the key it holds. */
async function enrol(userId: string): Promise<string> {
  const { seed, sealed } = proposeSeed(key, userId)
  const code = codeOf(seedText(seed), now.getTime())
  expect(await acceptSeed(store.prisma, { userId, sealed, code, key, now })).toBe(true)
  return seedText(seed)
}

async function versionOf(id: string): Promise<number> {
  return (await store.prisma.user.findUniqueOrThrow({ where: { id } })).version
}

function attempt() {
  return signIn(store.prisma, { userName: "ben", password, ...where, now })
}
