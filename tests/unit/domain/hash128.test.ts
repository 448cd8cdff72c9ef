import { expect, test } from "vitest"
import { hash128, hexOf } from "../../../lib/domain/hash128"

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
}

// SMHasher (Austin Appleby), KeysetTest.cpp, VerificationTest: for MurmurHash3_x86_128 the value is 0xB3ECE62A.
test("gives the verification value of the reference implementation", () => {
  const hashes = new Uint8Array(256 * 16)
  const out = viewOf(hashes)
  const key = new Uint8Array(256)
  for (let length = 0; length < 256; length += 1) {
    key[length] = length
    const hash = hash128(viewOf(key), 0, length, 256 - length)
    hash.forEach((part, index) => out.setInt32(length * 16 + index * 4, part, true))
  }

  const [first] = hash128(out, 0, hashes.length)

  expect(first >>> 0).toBe(0xb3ece62a)
})

test("does not depend on where in the buffer the bytes stand", () => {
  const text = Buffer.from("..I will not buy this record, it is scratched..")
  const middle = hash128(viewOf(text), 2, text.length - 2)

  expect(middle).toEqual(hash128(viewOf(Buffer.from("I will not buy this record, it is scratched")), 0, 43))
  expect(hexOf(middle)).toMatch(/^[0-9a-f]{32}$/)
})
