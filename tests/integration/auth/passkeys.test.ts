import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { signInWithPasskey } from "../../../lib/auth/passkey-sign-in"
import { addNewPasskey, askForNewPasskey, askForSignature, checkSignature } from "../../../lib/auth/passkeys"
import { findAccountById, type Account } from "../../../lib/store/accounts"
import { strangerActor } from "../../../lib/store/audit-actors"
import { listPasskeys, mostPasskeys, removePasskey, renamePasskey } from "../../../lib/store/passkeys"
import { findCaller } from "../../../lib/store/sessions"
import { openStore, type TestStore } from "../../helpers/open-store"
import { newPasskey, type Asked, type SoftwarePasskey } from "../../helpers/software-passkey"

const origin = "https://filtrate.example.org"
const site = { origin }
const start = new Date("2026-03-02T08:00:00Z")
const after = (ms: number) => new Date(start.getTime() + ms)
const fiveMinutesMs = 5 * 60_000
const by = strangerActor(null, "test")

let store: TestStore
let ada: Account
let ben: Account

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Clinic", timeZone: "UTC" } })
})

afterAll(() => store.close())

beforeEach(async () => {
  await store.prisma.passkeyChallenge.deleteMany()
  await store.prisma.passkey.deleteMany()
  await store.prisma.session.deleteMany()
  await store.prisma.user.deleteMany()
  ada = await accountOf("ada")
  ben = await accountOf("ben")
})

test("a passkey that was added signs in alone, with a session of its own kind", async () => {
  const passkey = await added(ada)

  const token = await enter(passkey, {})
  const caller = await findCaller(store.prisma, { token: token ?? "", now: start, isActive: true })
  expect(caller).toMatchObject({ userName: "ada", session: { method: "passkey" } })
  expect(await lastEntry()).toMatchObject({
    ...{ action: "sign-in", actor: ada.id, detail: { method: "passkey" } },
  })
  expect(await listPasskeys(store.prisma, ada.id)).toMatchObject([{ name: "phone", lastUsedAt: start }])
})

test("an authenticator is asked to verify the person, to keep the passkey, and is told who has one already", async () => {
  const passkey = await added(ada)
  const { options } = await askForNewPasskey(store.prisma, { account: ada, site, now: start })

  expect(options).toMatchObject({
    rp: { id: "filtrate.example.org" },
    authenticatorSelection: { residentKey: "required", userVerification: "required" },
    excludeCredentials: [{ id: passkey.id }],
    attestation: "none",
  })
  expect(Buffer.from(options.challenge, "base64url").length).toBeGreaterThanOrEqual(16)
  expect(Buffer.from(options.user.id, "base64url").toString()).not.toContain("ada")
})

describe("a sign-in is refused", () => {
  const wrong: Record<string, Partial<Asked>> = {
    "at another site": { origin: "https://filtrate.example.org.elsewhere.test" },
    "by plain HTTP": { origin: "http://filtrate.example.org" },
    "made for another site's passkeys": { rpId: "elsewhere.test" },
    "whose authenticator did not verify the person": { isVerified: false },
    "that answers another challenge": { options: { challenge: "YW5vdGhlcg" } },
    "that is a registration": { type: "webauthn.create" },
    "that says it is somebody else's": { userHandle: "AAAAAAAAAAAAAAAAAAAAAA" },
    "that does not say whose it is": { userHandle: "" },
  }

  test.each(Object.entries(wrong))("%s", async (_title, change) => {
    expect(await enter(await added(ada), change)).toBeNull()
    expect(await lastEntry()).toMatchObject({ action: "sign-in.fail", outcome: "refused" })
  })

  test("of a passkey that is known to nobody", async () => {
    await added(ada)

    expect(await enter(newPasskey(), {})).toBeNull()
  })

  test("signed by another key under the id of a known one", async () => {
    const known = await added(ada)
    const { options, token } = await question()
    const forged = { ...(await added(ben)).sign({ options, origin }), id: known.id, rawId: known.id }

    expect(await give({ answer: forged, token })).toBeNull()
  })

  test("a second time", async () => {
    const passkey = await added(ada)
    const { options, token } = await question()
    const answer = passkey.sign({ options, origin })

    expect(await give({ answer, token })).not.toBeNull()
    expect(await give({ answer, token })).toBeNull()
  })

  test("but once, of ten at the same moment", async () => {
    const passkey = await added(ada)
    const { options, token } = await question()
    const answer = passkey.sign({ options, origin })

    const answers = await Promise.all(Array.from({ length: 10 }, () => give({ answer, token })))
    expect(answers.filter((one) => one !== null)).toHaveLength(1)
  })

  test("in another browser than the one that asked", async () => {
    const passkey = await added(ada)
    const { options } = await question()
    const other = await question()

    expect(await give({ answer: passkey.sign({ options, origin }), token: other.token })).toBeNull()
    expect(await give({ answer: passkey.sign({ options, origin }), token: "" })).toBeNull()
  })

  test("after five minutes, and not a moment before", async () => {
    const passkey = await added(ada)
    const [late, inTime] = [await question(), await question()]

    const answerTo = ({ options }: typeof late) => passkey.sign({ options, origin })
    expect(
      await give({ answer: answerTo(inTime), token: inTime.token, now: after(fiveMinutesMs - 1) }),
    ).not.toBeNull()
    expect(await give({ answer: answerTo(late), token: late.token, now: after(fiveMinutesMs) })).toBeNull()
  })

  test("when the counter did not rise, as that of a copy does not", async () => {
    const passkey = await added(ada)

    expect(await enter(passkey, { counter: 5 })).not.toBeNull()
    expect(await enter(passkey, { counter: 5 })).toBeNull()
    expect(await enter(passkey, { counter: 4 })).toBeNull()
    expect(await enter(passkey, { counter: 0 })).toBeNull()
    expect(await enter(passkey, { counter: 6 })).not.toBeNull()
  })

  test("of somebody disabled, and of somebody the provider lets in", async () => {
    const [hers, his] = [await added(ada), await added(ben)]
    await store.prisma.user.update({ where: { id: ada.id }, data: { disabledAt: start } })
    await store.prisma.user.update({ where: { id: ben.id }, data: { issuer: "https://i", subject: "s" } })

    expect(await enter(hers, {})).toBeNull()
    expect(await enter(his, {})).toBeNull()
  })

  test.each([undefined, null, "text", {}, { id: "x", rawId: "x", type: "public-key", response: {} }])(
    "of %j",
    async (answer) => {
      const { token } = await question()
      expect(await give({ answer, token })).toBeNull()
    },
  )
})

describe("as a second factor", () => {
  test("serves the passkey of the person who gave the first, and nobody else's", async () => {
    const [hers, his] = [await added(ada), await added(ben)]

    expect(await second(hers)).toBe(ada.id)
    expect(await second(his)).toBeNull()
  })

  test("serves no answer to a question of the sign-in", async () => {
    const hers = await added(ada)
    const { options, token } = await question()

    const answer = hers.sign({ options, origin })
    const asked = { answer, token, purpose: "factor", userId: ada.id, site, now: start } as const
    expect(await checkSignature(store.prisma, asked)).toBeNull()
  })

  async function second(passkey: SoftwarePasskey): Promise<string | null> {
    const about = { purpose: "factor", userId: ada.id, site, now: start } as const
    const { options, token } = await askForSignature(store.prisma, about)
    return checkSignature(store.prisma, { ...about, token, answer: passkey.sign({ options, origin }) })
  }
})

describe("a new passkey is refused", () => {
  test("at another site, unverified, for another's question, and a second time", async () => {
    const passkey = newPasskey()
    expect(await keep({ passkey, at: "https://elsewhere.test" })).toBe(false)
    expect(await keep({ passkey, flags: 0x01 })).toBe(false)
    expect(await keep({ passkey, userId: ben.id })).toBe(false)
    expect(await keep({ passkey })).toBe(true)
    expect(await keep({ passkey })).toBe(false)
    expect(await listPasskeys(store.prisma, ada.id)).toHaveLength(1)
  })

  test("beyond the number an account may have", async () => {
    for (let count = 0; count < mostPasskeys; count += 1) await added(ada)

    expect(await keep({ passkey: newPasskey() })).toBe(false)
  })
})

test("only the person whose it is renames it or takes it away, and the log has it", async () => {
  const { id } = await added(ada)

  await renamePasskey(store.prisma, { userId: ben.id, id, name: "mine", by })
  await removePasskey(store.prisma, { userId: ben.id, id, by })
  expect(await listPasskeys(store.prisma, ada.id)).toMatchObject([{ name: "phone" }])
  await renamePasskey(store.prisma, { userId: ada.id, id, name: "old phone", by })
  expect(await listPasskeys(store.prisma, ada.id)).toMatchObject([{ name: "old phone" }])
  await removePasskey(store.prisma, { userId: ada.id, id, by })
  expect(await listPasskeys(store.prisma, ada.id)).toEqual([])
  expect(await lastEntry()).toMatchObject({ action: "factor.change", detail: { what: "passkey removed" } })
})

test("questions that nobody answered are swept away", async () => {
  for (let count = 0; count < 5; count += 1) await question()
  await askForSignature(store.prisma, { purpose: "sign-in", userId: null, site, now: after(fiveMinutesMs) })

  expect(await store.prisma.passkeyChallenge.count()).toBe(1)
})

async function accountOf(userName: string): Promise<Account> {
  const { id } = await store.prisma.user.create({ data: { userName, name: userName, roles: ["nurse"] } })
  const account = await findAccountById(store.prisma, id)
  if (!account) throw new Error("the account was not made")
  return account
}

async function added(account: Account): Promise<SoftwarePasskey> {
  const passkey = newPasskey()
  if (!(await keep({ passkey, account }))) throw new Error("the passkey was not added")
  return passkey
}

type Keeping = { passkey: SoftwarePasskey; account?: Account; at?: string; flags?: number; userId?: string }

async function keep({ passkey, account = ada, at = origin, flags, userId }: Keeping): Promise<boolean> {
  const { options, token } = await askForNewPasskey(store.prisma, { account, site, now: start })
  const answer = passkey.make({ options, origin: at }, flags)
  const about = { answer, token, userId: userId ?? account.id, name: "phone", by, site, now: start }
  return addNewPasskey(store.prisma, about)
}

function question() {
  return askForSignature(store.prisma, { purpose: "sign-in", userId: null, site, now: start })
}

async function enter(passkey: SoftwarePasskey, change: Partial<Asked>): Promise<string | null> {
  const { options, token } = await question()
  return give({ answer: passkey.sign({ options, origin, ...change }), token })
}

function give(given: { answer: unknown; token: string; now?: Date }): Promise<string | null> {
  return signInWithPasskey(store.prisma, { now: start, ...given, site, agent: "", address: "" })
}

async function lastEntry() {
  return store.prisma.auditEntry.findFirst({ orderBy: { seq: "desc" } })
}
