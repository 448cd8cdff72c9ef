import { expect, test } from "vitest"
import { seal, unseal } from "../../../lib/auth/seal"

const key = Buffer.alloc(32, 7)
const plain = Buffer.from("a seed")

test("what was sealed opens with the same key for the same use", () => {
  const sealed = seal(key, plain, "factor of ada")

  expect(unseal(key, sealed, "factor of ada")?.toString()).toBe("a seed")
  expect(Buffer.from(sealed).includes(plain)).toBe(false)
})

test("for another use, with another key, changed anywhere or cut short it does not", () => {
  const sealed = seal(key, plain, "factor of ada")

  expect(unseal(key, sealed, "factor of ben")).toBeNull()
  expect(unseal(Buffer.alloc(32, 8), sealed, "factor of ada")).toBeNull()
  for (let place = 0; place < sealed.length; place += 1) {
    const changed = sealed.map((byte, at) => (at === place ? byte ^ 1 : byte))
    expect(unseal(key, changed, "factor of ada")).toBeNull()
    expect(unseal(key, sealed.subarray(0, place), "factor of ada")).toBeNull()
  }
})

test("the same bytes are sealed differently each time", () => {
  expect(seal(key, plain, "x")).not.toEqual(seal(key, plain, "x"))
})
