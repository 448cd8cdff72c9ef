import { expect, test } from "vitest"
import { seedAddress, seedText, stepOfCode } from "../../../lib/auth/totp"

const seed = new Uint8Array(Buffer.from("12345678901234567890", "ascii"))
const ask = (code: string, seconds: number, lastStep: bigint | null = null) =>
  stepOfCode({ seed, code, lastStep, now: new Date(seconds * 1000) })

// RFC 6238, appendix B, SHA-1: its codes have eight digits, ours are their last six (RFC 4226, 5.3). From memory.
test.each([
  [59, "94287082", 0x1n],
  [1111111109, "07081804", 0x23523ecn],
  [1111111111, "14050471", 0x23523edn],
  [1234567890, "89005924", 0x273ef07n],
  [2000000000, "69279037", 0x3f940aan],
  [20000000000, "65353130", 0x27bc86aan],
])("at %i seconds the code is that of the standard", (seconds, code, step) => {
  expect(ask(code.slice(-6), seconds)).toBe(step)
})

test("a code is good one step early and late, and not two", () => {
  const code = "050471"
  const start = 0x23523ed * 30
  expect([-31, -30, -1, 0, 29, 30, 59, 60].map((off) => ask(code, start + off) !== null)).toEqual([
    ...[false, true, true, true, true, true, true, false],
  ])
})

test("a code of a step that was used, or of one before it, is good no more", () => {
  expect(ask("287082", 59, 0n)).toBe(1n)
  expect(ask("287082", 59, 1n)).toBeNull()
  expect(ask("287082", 59, 2n)).toBeNull()
})

test.each(["", "28708", "2870821", "abcdef", "28708２"])("%j is no code", (code) => {
  expect(ask(code, 59)).toBeNull()
})

test("a code may be typed as the app shows it", () => {
  expect(ask("287 082", 59)).toBe(1n)
})

// RFC 4648 base32 of the seed above, as RFC 6238's reference seeds are commonly written (from memory).
test("the seed goes to the app in base32", () => {
  expect(seedText(seed).replaceAll(" ", "")).toBe("GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ")
  expect(seedAddress(seed, "ada")).toMatch(
    /^otpauth:\/\/totp\/Filtrate:ada\?.*secret=GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ/,
  )
})
