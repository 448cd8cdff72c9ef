import { randomBytes } from "node:crypto"
import { writeFileSync } from "node:fs"
import path from "node:path"
import fc from "fast-check"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { hashToken, newToken } from "../../lib/access/tokens"
import { isBreached } from "../../lib/auth/breached-passwords"
import { passwordLength, passwordProblem } from "../../lib/auth/password-rules"
import { tidyRecoveryCode } from "../../lib/auth/recovery-codes"
import { seal, unseal } from "../../lib/auth/seal"
import { newSeed, stepOfCode } from "../../lib/auth/totp"
import { PersonName, UserName } from "../../lib/store/accounts"
import { findLink } from "../../lib/store/one-time-links"
import { findCaller, findHalfSignedIn } from "../../lib/store/sessions"
import { expectPlainWords, forInputs } from "../helpers/fuzz"
import { hostileText, mostly } from "../helpers/hostile"
import { openStore, type TestStore } from "../helpers/open-store"
import { temporaryFolder } from "../helpers/temporary-folder"

let store: TestStore
const scratch = temporaryFolder()

beforeAll(async () => {
  store = await openStore()
})

afterAll(async () => {
  await store.close()
  scratch.remove()
})

test("any password is taken or refused in words", () =>
  forInputs(
    fc.tuple(mostly("gnu kelp dwarf lantern oboe", "passwordpassword"), hostileText),
    async ([start, end]) => {
      const password = start + end
      const problem = await passwordProblem(password, { words: [end], breachedHashes: undefined })
      const length = [...password.normalize("NFKC")].length
      if (problem !== null) expectPlainWords(problem)
      else expect(length >= passwordLength.least && length <= passwordLength.most).toBe(true)
    },
  ))

test("any user name and name is taken in its tidy form or refused", () =>
  forInputs(mostly("ruth", "Ruth.Calloway@clinic", "Noor Haddad"), (typed) => {
    const userName = UserName.safeParse(typed)
    if (userName.success) {
      expect(userName.data).not.toMatch(/[\s<>"'\\/\0]/)
      expect(UserName.parse(userName.data)).toBe(userName.data)
    }
    const name = PersonName.safeParse(typed)
    if (name.success) expect(name.data).not.toMatch(/\0/)
  }))

test("any text is a code of the right step or none", () => {
  const seed = newSeed()
  return forInputs(mostly("123456", "000000", "12 34 56"), (code) => {
    const step = stepOfCode({ seed, code, lastStep: null, now: new Date(59_000) })
    if (step !== null) expect(code.replaceAll(/\s/g, "")).toMatch(/^\d{6}$/)
  })
})

test("any text is a recovery code or none", () =>
  forInputs(mostly("abcd-efgh-ijkl-mnop-qrst-uvwx"), (typed) => {
    const tidy = tidyRecoveryCode(typed)
    if (tidy !== null) expect(tidy).toMatch(/^([A-Z2-7]{4}-){5}[A-Z2-7]{4}$/)
  }))

test("nothing but what was sealed opens", () => {
  const key = randomBytes(32)
  const sealed = seal(key, Buffer.from("seed"), "one use")
  return forInputs(
    fc.tuple(hostileText, fc.uint8Array({ maxLength: 60 }), fc.nat({ max: 40 })),
    ([about, bytes, at]) => {
      expect(unseal(key, bytes, about)).toBeNull()
      if (about !== "one use") expect(unseal(key, sealed, about)).toBeNull()
      const changed = Uint8Array.from(sealed)
      changed[at % changed.length] = (changed[at % changed.length] ?? 0) ^ 1
      expect(unseal(key, changed, "one use")).toBeNull()
      expect(unseal(key, Buffer.from(about, "base64url"), "one use")).toBeNull()
    },
  )
})

describe("a token that nobody was given opens nothing:", () => {
  const token = fc.oneof(
    hostileText,
    fc.constant(null).map(() => newToken()),
  )

  test("no session", () =>
    forInputs(token, async (one) => {
      const now = new Date()
      expect(hashToken(one).length).toBe(32)
      expect(await findCaller(store.prisma, { token: one, now, isActive: true })).toBeNull()
    }))

  test("no session that waits for its second factor", () =>
    forInputs(token, async (one) => {
      expect(await findHalfSignedIn(store.prisma, { token: one, now: new Date() })).toBeNull()
    }))

  test("no one-time link", () =>
    forInputs(token, async (one) => {
      expect(await findLink(store.prisma, { token: one, now: new Date() })).toBeNull()
    }))
})

test("a file of breached passwords of any lines is searched to an answer", () => {
  const file = path.join(scratch.folder, "hashes.txt")
  const line = fc.oneof(hostileText, fc.stringMatching(/^[0-9A-F]{40}(:\d{1,4})?$/))
  return forInputs(fc.tuple(fc.array(line, { maxLength: 20 }), hostileText), async ([lines, password]) => {
    writeFileSync(file, lines.join("\n"))
    expect(typeof (await isBreached(password, file))).toBe("boolean")
  })
})
