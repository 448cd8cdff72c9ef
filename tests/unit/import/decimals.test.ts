import { describe, expect, test } from "vitest"
import { compareDecimals, convertDecimal, decimalFromText } from "../../../lib/import/decimals"

describe("reads the numbers of the extract contract", () => {
  test.each([
    ["120", "120"],
    ["+120", "120"],
    ["-7.50", "-7.5"],
    [".5", "0.5"],
    ["007", "7"],
    ["0.0", "0"],
    ["-0.00", "0"],
    ["1234567890123456789.000000000000001", "1234567890123456789.000000000000001"],
  ])("%s is %s", (text, number) => {
    expect(decimalFromText(text)).toBe(number)
  })

  test.each(["", "5.", ".", "+", "1e3", "1,5", "1 000", "0x10", "NaN", "--1", "1.2.3", "١٢", "9".repeat(41)])(
    "%j is no number",
    (text) => {
      expect(decimalFromText(text)).toBeNull()
    },
  )
})

describe("compares exactly", () => {
  test("tells numbers apart that a double cannot", () => {
    expect(compareDecimals("300.00000000000000001", "300")).toBeGreaterThan(0)
    expect(compareDecimals("-300.00000000000000001", "-300")).toBeLessThan(0)
  })

  test("sees the same number in another length", () => {
    expect(compareDecimals("120", "120")).toBe(0)
  })
})

describe("converts exactly", () => {
  test.each([
    ["1.2", "88.4", "0", "106.08"],
    ["0.1", "88.4", "0", "8.84"],
    ["0.1", "0.2", "0", "0.02"],
    ["48", "0.09148", "2.152", "6.54304"],
    ["-1", "8.84", "0", "-8.84"],
    ["7", "1", "0", "7"],
  ])("%s x %s + %s is %s", (number, factor, offset, expected) => {
    expect(convertDecimal(number, factor, offset)).toBe(expected)
  })
})
