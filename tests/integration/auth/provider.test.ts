import { randomBytes } from "node:crypto"
import { afterAll, beforeAll, beforeEach, expect, test, vi } from "vitest"
import { comeBackFromProvider, leaveForProvider, signOutAtProvider } from "../../../lib/auth/provider"
import { signInThroughProvider, type ProviderAnswer } from "../../../lib/auth/provider-sign-in"
import { providerSettings, type ProviderSettings } from "../../../lib/auth/provider-settings"
import { hashPassword } from "../../../lib/auth/password-hash"
import { signIn } from "../../../lib/auth/sign-in"
import { strangerActor } from "../../../lib/store/audit-actors"
import { takeFactorAway } from "../../../lib/store/provider-accounts"
import { findCaller, findHalfSignedIn } from "../../../lib/store/sessions"
import { makeUserLink } from "../../../lib/store/users"
import { openStore, type TestStore } from "../../helpers/open-store"
import {
  clientId,
  clientSecret,
  openProvider,
  redirectUri,
  signInAtProvider,
  type Someone,
} from "../../helpers/provider"

const key = randomBytes(32)
const nina = { name: "Nina Varga", preferred_username: "nina", groups: ["ward-nurses"] }

let store: TestStore
let provider: Awaited<ReturnType<typeof openProvider>>
let people: Record<string, Someone>

beforeAll(async () => {
  people = {}
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Clinic", timeZone: "UTC" } })
  provider = await openProvider(people)
  vi.stubEnv("FILTRATE_OIDC_ISSUER", provider.issuer)
})

afterAll(async () => {
  vi.unstubAllEnvs()
  await provider.close()
  await store.close()
})

beforeEach(async () => {
  people.n1 = { ...nina }
  await store.prisma.session.deleteMany()
  await store.prisma.user.deleteMany()
})

test("who signs in at the provider has an account and a session with the mapped roles", async () => {
  const answer = await enter("n1")

  const token = "token" in answer ? answer.token : ""
  const caller = await findCaller(store.prisma, { token, now: new Date(), isActive: true })
  expect(caller).toMatchObject({ name: "Nina Varga", userName: "nina", roles: ["nurse"] })
  expect(caller?.session.method).toBe("provider")
})

test("roles are those of the last sign-in, and the account stays the same one", async () => {
  await enter("n1")
  const before = await store.prisma.user.findFirst({ where: { subject: "n1" } })
  people.n1 = { ...nina, name: "Nina Holm", groups: ["leads", "unknown"] }
  await enter("n1")

  const users = await store.prisma.user.findMany()
  expect(users).toHaveLength(1)
  expect(users[0]).toMatchObject({ id: before?.id, name: "Nina Holm", roles: ["clinic-lead"] })
})

test("who has no mapped role is refused and gets no account", async () => {
  people.n1 = { ...nina, groups: ["gardeners"] }

  expect(await enter("n1")).toEqual({ status: "no-role" })
  expect(await store.prisma.user.count()).toBe(0)
})

test("who has no mapped role any more is signed out everywhere", async () => {
  const first = await enter("n1")
  people.n1 = { ...nina, groups: [] }

  expect(await enter("n1")).toEqual({ status: "no-role" })
  const token = "token" in first ? first.token : ""
  expect(await findCaller(store.prisma, { token, now: new Date(), isActive: true })).toBeNull()
})

test("who is disabled stays so", async () => {
  await enter("n1")
  await store.prisma.user.updateMany({ data: { disabledAt: new Date() } })

  expect(await enter("n1")).toEqual({ status: "disabled" })
})

test("an account that has the same user name is never taken over", async () => {
  const own = await store.prisma.user.create({
    data: { userName: "nina", name: "Another Nina", roles: ["administrator"] },
  })
  await enter("n1")

  const made = await store.prisma.user.findFirst({ where: { subject: "n1" } })
  expect(made?.id).not.toBe(own.id)
  expect(made?.userName).toMatch(/^nina-[0-9a-f]{12}$/)
  expect(made?.roles).toEqual(["nurse"])
})

test("who comes in by the provider has no other way in: no password, and no link that sets one", async () => {
  await enter("n1")
  const password = "gnu kelp dwarf lantern oboe"
  const { id } = await store.prisma.user.update({
    where: { userName: "nina" },
    data: { passwordHash: await hashPassword(password) },
  })

  const attempt = { userName: "nina", password, agent: "", address: "", now: new Date() }
  expect(await signIn(store.prisma, attempt)).toEqual({ status: "refused" })
  const link = { id, purpose: "reset", by: strangerActor(null), now: new Date() } as const
  expect(await makeUserLink(store.prisma, link)).toBeNull()
})

test("a lost second factor of this site is taken away with the sessions, from the provider's accounts alone", async () => {
  const first = await enter("n1")
  const held = { totpSecret: new Uint8Array([1]), totpStep: 1n }
  const hers = await store.prisma.user.update({ where: { userName: "nina" }, data: held })
  const own = await store.prisma.user.create({ data: { userName: "ada", name: "Ada", ...held } })
  const take = (id: string) => takeFactorAway(store.prisma, { id, by: strangerActor(null), now: new Date() })

  expect([await take(hers.id), await take(own.id)]).toEqual([true, false])
  const left = await store.prisma.user.findMany({ where: { totpSecret: { not: null } } })
  expect(left.map((user) => user.userName)).toEqual(["ada"])
  const token = "token" in first ? first.token : ""
  expect(await findCaller(store.prisma, { token, now: new Date(), isActive: true })).toBeNull()
})

test("where a second factor of this site is asked, the session still owes it", async () => {
  const answer = await enter("n1", { FILTRATE_OIDC_FACTOR: "ours" })

  const token = "token" in answer ? answer.token : ""
  expect(answer.status).toBe("half")
  expect(await findHalfSignedIn(store.prisma, { token, now: new Date() })).not.toBeNull()
  expect(await findCaller(store.prisma, { token, now: new Date(), isActive: true })).toBeNull()
})

test("an answer is refused with another state, without one, and from another issuer", async () => {
  for (const change of [
    (address: URL) => address.searchParams.set("state", "another"),
    (address: URL) => address.searchParams.delete("state"),
    (address: URL) => address.searchParams.set("iss", "https://other.example.org"),
  ]) {
    const { settings, sealed, address } = await away("n1")
    change(address)
    await expect(
      comeBackFromProvider(settings, { address, sealed, key, now: new Date() }),
    ).rejects.toMatchObject({ code: "not-signed-in" })
  }
})

test("a code is good once", async () => {
  const { settings, sealed, address } = await away("n1")
  const back = { address, sealed, key, now: new Date() }
  expect((await comeBackFromProvider(settings, back)).subject).toBe("n1")

  await expect(comeBackFromProvider(settings, back)).rejects.toMatchObject({ code: "not-signed-in" })
})

test("an answer is refused in a browser that did not leave, or left more than ten minutes ago", async () => {
  const { settings, sealed, address } = await away("n1")
  const other = await leaveForProvider(settings, { redirectUri, key, now: new Date() })
  const late = new Date(Date.now() + 10 * 60_000)

  for (const back of [
    { address, sealed: "", key, now: new Date() },
    { address, sealed, key: randomBytes(32), now: new Date() },
    { address, sealed: other.sealed, key, now: new Date() },
    { address, sealed, key, now: late },
  ])
    await expect(comeBackFromProvider(settings, back)).rejects.toMatchObject({ code: "not-signed-in" })
})

test("a demanded class of authentication that the provider does not state refuses", async () => {
  const { settings, sealed, address } = await away("n1", { FILTRATE_OIDC_ACR: "urn:example:two-factors" })

  await expect(
    comeBackFromProvider(settings, { address, sealed, key, now: new Date() }),
  ).rejects.toMatchObject({ code: "not-signed-in" })
})

test("what leaves is a code request with S256, state and nonce", async () => {
  const { address } = await leaveForProvider(settingsWith({}), { redirectUri, key, now: new Date() })

  const asked = Object.fromEntries(new URL(address).searchParams)
  expect(asked).toMatchObject({ response_type: "code", code_challenge_method: "S256", max_age: "300" })
  expect(asked.state?.length).toBeGreaterThan(20)
  expect(asked.nonce?.length).toBeGreaterThan(20)
})

test("signing out leads to the provider, which leads back", async () => {
  const address = await signOutAtProvider(settingsWith({}), "http://localhost:3999/sign-in")

  expect(address).toContain(`${provider.issuer}/session/end?`)
  expect((await fetch(address ?? "")).status).toBe(200)
})

type Changes = { FILTRATE_OIDC_ACR?: string; FILTRATE_OIDC_FACTOR?: "ours" }

function settingsWith(changes: Changes): ProviderSettings {
  const settings = providerSettings({
    ...{ issuer: provider.issuer, clientId, clientSecret, clientSecretFile: undefined },
    ...{ scope: "openid profile", roleClaim: "groups", roleMap: "ward-nurses=nurse, leads=clinic-lead" },
    ...{ acr: changes.FILTRATE_OIDC_ACR, factor: changes.FILTRATE_OIDC_FACTOR ?? "provider" },
  })
  if (!settings) throw new Error("the provider is not configured")
  return settings
}

async function away(id: string, changes: Changes = {}) {
  const settings = settingsWith(changes)
  const { address, sealed } = await leaveForProvider(settings, { redirectUri, key, now: new Date() })
  return { settings, sealed, address: await signInAtProvider(address, id) }
}

async function enter(id: string, changes: Changes = {}): Promise<ProviderAnswer> {
  const { settings, sealed, address } = await away(id, changes)
  const now = new Date()
  const identity = await comeBackFromProvider(settings, { address, sealed, key, now })
  return signInThroughProvider(store.prisma, { identity, settings, agent: "", address: "", now })
}
