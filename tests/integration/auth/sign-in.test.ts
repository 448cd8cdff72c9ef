import { afterAll, beforeAll, beforeEach, expect, test } from "vitest"
import { hashPassword } from "../../../lib/auth/password-hash"
import { signIn, type SignInAnswer } from "../../../lib/auth/sign-in"
import { openClient } from "../../../lib/store/client"
import { findCaller, findHalfSignedIn } from "../../../lib/store/sessions"
import { openStore, type TestStore } from "../../helpers/open-store"

const password = "gnu kelp dwarf lantern oboe"
const start = new Date("2026-03-02T08:00:00Z")
const after = (seconds: number) => new Date(start.getTime() + seconds * 1000)

let store: TestStore
let passwordHash: string

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Clinic", timeZone: "UTC" } })
  passwordHash = await hashPassword(password)
})

afterAll(() => store.close())

beforeEach(async () => {
  await store.prisma.session.deleteMany()
  await store.prisma.signInFailure.deleteMany()
  await store.prisma.user.deleteMany()
  const users = ["ada", "ben"].map((userName) => ({
    userName,
    name: userName,
    roles: ["nurse"],
    passwordHash,
  }))
  await store.prisma.user.createMany({ data: users })
})

test("user name and password give a session that still owes the second factor", async () => {
  const answer = await attempt({})

  const token = answer.status === "half" ? answer.token : ""
  expect(await findHalfSignedIn(store.prisma, { token, now: start })).toMatchObject({ userName: "ada" })
  expect(await findCaller(store.prisma, { token, now: start, isActive: true })).toBeNull()
})

test("a user name may be typed in capitals, a password not", async () => {
  expect((await attempt({ userName: " ADA " })).status).toBe("half")
  expect((await attempt({ password: password.toUpperCase() })).status).toBe("refused")
})

test("an unknown name, a wrong password, someone disabled and someone without a password are told the same", async () => {
  await store.prisma.user.create({
    data: { userName: "off", name: "Off", roles: ["nurse"], passwordHash, disabledAt: start },
  })
  await store.prisma.user.create({ data: { userName: "bare", name: "Bare", roles: ["nurse"] } })
  const answers = [
    await attempt({ password: "wrong" }),
    await attempt({ userName: "nobody" }),
    await attempt({ userName: "off" }),
    await attempt({ userName: "bare" }),
    await attempt({ userName: "not a name'" }),
  ]

  expect(answers).toEqual(answers.map(() => ({ status: "refused" })))
})

test("five wrong ones in a row are free, then each waits twice as long, up to a minute", async () => {
  const waits: number[] = []
  let at = 0
  for (let count = 0; count < 13; count += 1) {
    expect((await attempt({ password: "wrong", now: after(at) })).status).toBe("refused")
    const next = count < 4 ? null : await attempt({ password: "wrong", now: after(at) })
    const seconds = next?.status === "wait" ? next.seconds : 0
    waits.push(seconds)
    at += seconds
  }

  expect(waits).toEqual([0, 0, 0, 0, 1, 2, 4, 8, 16, 32, 60, 60, 60])
})

test("of 200 at once no more are judged than are free", async () => {
  const answers = await Promise.all(Array.from({ length: 200 }, () => attempt({ password: "wrong" })))

  expect(answers.filter((answer) => answer.status === "refused")).toHaveLength(5)
  expect(answers.filter((answer) => answer.status === "wait")).toHaveLength(195)
  expect((await attempt({ userName: "ben", address: "10.0.0.9" })).status).toBe("half")
})

test("the right password after the wait signs in and ends the row", async () => {
  for (let count = 0; count < 5; count += 1) await attempt({ password: "wrong" })
  expect((await attempt({})).status).toBe("wait")

  expect((await attempt({ now: after(1) })).status).toBe("half")
  expect(await store.prisma.signInFailure.count({ where: { scope: { contains: "ada" } } })).toBe(0)
})

test("what was counted outlives the process", async () => {
  for (let count = 0; count < 5; count += 1) await attempt({ password: "wrong" })
  const restarted = openClient(store.url)

  const answer = await signIn(restarted, {
    userName: "ada",
    password,
    address: "10.0.0.1",
    agent: "",
    now: start,
  })
  await restarted.$disconnect()
  expect(answer.status).toBe("wait")
})

test("failures from elsewhere keep nobody out of an address they have signed in from", async () => {
  const { id: userId } = await store.prisma.user.findFirstOrThrow({ where: { userName: "ada" } })
  const about = { userId, stage: "full", method: "password", agent: "", address: "10.0.0.1" }
  await store.prisma.session.create({
    data: {
      ...about,
      tokenHash: new Uint8Array(32),
      createdAt: start,
      lastSeenAt: start,
      provenAt: start,
      endsAt: start,
    },
  })
  for (let count = 0; count < 120; count += 1)
    await attempt({ password: "wrong", address: `10.1.0.${count}`, now: after(count * 61) })

  const now = after(120 * 61)
  expect((await attempt({ address: "10.9.9.9", now })).status).toBe("wait")
  expect((await attempt({ now })).status).toBe("half")
})

test("one address that tries many accounts is slowed to thirty a minute", async () => {
  const answers: SignInAnswer[] = []
  for (let count = 0; count < 40; count += 1)
    answers.push(await attempt({ userName: `guess${count}`, address: "10.0.0.66" }))

  expect(answers.filter((answer) => answer.status === "refused")).toHaveLength(30)
})

test("a password of older parameters is hashed anew when it is used", async () => {
  const old = passwordHash.replace(/\$m=\d+,t=\d+/, "$m=8192,t=1")
  const { hash } = await import("@node-rs/argon2")
  const weak = await hash(password, { memoryCost: 8192, timeCost: 1, parallelism: 1 })
  expect(weak.split("$").slice(0, 4)).toEqual(old.split("$").slice(0, 4))
  await store.prisma.user.updateMany({ where: { userName: "ada" }, data: { passwordHash: weak } })

  expect((await attempt({})).status).toBe("half")
  const { passwordHash: now } = await store.prisma.user.findFirstOrThrow({ where: { userName: "ada" } })
  expect(now).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
})

test("the log names the account and nothing that was typed", async () => {
  await attempt({ password: "a secret that was typed" })
  await attempt({ userName: "a.secret.typed" })

  const rows = await store.client.query("select row_to_json(e)::text as text from audit_entries e")
  expect(JSON.stringify(rows.rows)).toContain("sign-in.fail")
  expect(JSON.stringify(rows.rows)).not.toContain("secret")
})

function attempt(part: Partial<Parameters<typeof signIn>[1]>): Promise<SignInAnswer> {
  return signIn(store.prisma, {
    ...{ userName: "ada", password, address: "10.0.0.1", agent: "test", now: start },
    ...part,
  })
}
