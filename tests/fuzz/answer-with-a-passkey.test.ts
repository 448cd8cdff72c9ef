import fc from "fast-check"
import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { addNewPasskey, askForNewPasskey, askForSignature, checkSignature } from "../../lib/auth/passkeys"
import { findAccountById, type Account } from "../../lib/store/accounts"
import { strangerActor } from "../../lib/store/audit-actors"
import { forInputs } from "../helpers/fuzz"
import { hostileText } from "../helpers/hostile"
import { openStore, type TestStore } from "../helpers/open-store"
import { newPasskey } from "../helpers/software-passkey"

const origin = "https://filtrate.example.org"
const site = { origin }
const now = new Date("2026-03-02T08:00:00Z")
const passkey = newPasskey()

let store: TestStore
let account: Account

beforeAll(async () => {
  store = await openStore()
  const user = await store.prisma.user.create({ data: { userName: "ada", name: "Ada", roles: ["nurse"] } })
  const found = await findAccountById(store.prisma, user.id)
  if (!found) throw new Error("the account was not made")
  account = found
  const { options, token } = await askForNewPasskey(store.prisma, { account, site, now })
  expect(await keep(passkey.make({ options, origin }), token)).toBe(true)
})

afterAll(() => store.close())

/** One place of an answer is changed: to any text, to any value, or in one bit of its bytes. */
const change = fc.record({
  place: fc.nat(),
  how: fc.oneof(
    hostileText.map((text) => () => text),
    fc.anything().map((value) => () => value),
    fc.nat().map((bit) => (before: string) => flipped(before, bit)),
  ),
})

test("a signed answer that was changed anywhere signs nobody in", async () => {
  await forInputs(change, async ({ place, how }) => {
    const asked = { purpose: "sign-in", userId: null, site, now } as const
    const { options, token } = await askForSignature(store.prisma, asked)
    const good = passkey.sign({ options, origin })
    const answer = changed(good, { place, how })

    const whose = await checkSignature(store.prisma, { ...asked, answer, token })
    if (JSON.stringify(answer) === JSON.stringify(good)) expect(whose).toBe(account.id)
    else if (unwrapped(answer) === unwrapped(good)) expect([account.id, null]).toContain(whose)
    else expect(whose).toBeNull()
  })
})

test("a made passkey is added or refused, whatever was changed, and breaks nothing", async () => {
  await forInputs(change, async (one) => {
    const { options, token } = await askForNewPasskey(store.prisma, { account, site, now })
    expect([true, false]).toContain(
      await keep(changed(newPasskey().make({ options, origin }), one), token, "fuzz"),
    )
    await store.client.query("delete from passkeys where name = 'fuzz'")
  })
})

test("what is no answer at all signs nobody in", async () => {
  await forInputs(fc.anything(), async (answer) => {
    const asked = { purpose: "sign-in", userId: null, site, now } as const
    const { token } = await askForSignature(store.prisma, asked)

    expect(await checkSignature(store.prisma, { ...asked, answer, token })).toBeNull()
  })
})

function keep(answer: unknown, token: string, name = "phone"): Promise<boolean> {
  const about = { token, userId: account.id, name, by: strangerActor(null), site, now }
  return addNewPasskey(store.prisma, { ...about, answer })
}

type Answer = { id: string; rawId: string; type: string; response: object }
type Change = { place: number; how: (before: string) => unknown }

/** The outer names that are read, then those of the response. */
function changed(answer: Answer, { place, how }: Change): unknown {
  const inner = Object.entries(answer.response).filter((entry) => typeof entry[1] === "string")
  const places = ["id", "rawId", "type", ...inner.map(([name]) => name)]
  const name = places[place % places.length] ?? "id"
  if (name === "id" || name === "rawId" || name === "type") return { ...answer, [name]: how(answer[name]) }
  const before = String(inner.find(([one]) => one === name)?.[1])
  return { ...answer, response: { ...answer.response, [name]: how(before) } }
}

/**
 * An answer without the tag and the length around the two numbers of its signature, which the library reads leniently
 * (X.690, 8.1.2 and 8.1.3, from memory); what they wrap is the same signature.
 */
function unwrapped(answer: unknown): string {
  const Signed = z.object({ response: z.looseObject({ signature: z.string() }) }).loose()
  const signed = Signed.safeParse(answer)
  if (!signed.success) return String(JSON.stringify(answer))
  const { response } = signed.data
  const numbers = Buffer.from(response.signature, "base64url").subarray(2).toString("hex")
  return JSON.stringify({ ...signed.data, response: { ...response, signature: numbers } })
}

function flipped(text: string, bit: number): string {
  const bytes = Buffer.from(text, "base64url")
  const place = Math.floor(bit / 8) % Math.max(1, bytes.length)
  bytes[place] = (bytes[place] ?? 0) ^ (1 << (bit % 8))
  return bytes.toString("base64url")
}
