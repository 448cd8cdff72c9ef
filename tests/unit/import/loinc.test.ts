import { describe, expect, test } from "vitest"
import { readLabCodes } from "../../../lib/import/lab-codes"
import { isLoinc } from "../../../lib/import/loinc"

describe("knows a well-formed LOINC code", () => {
  // LOINC Users' Guide, "Calculating Mod 10 check digits": the worked example.
  test("12345 has the check digit 5", () => {
    expect([..."0123456789"].filter((digit) => isLoinc(`12345-${digit}`))).toEqual(["5"])
  })

  // LOINC forum, "LOINC code and Mod 10 check digit mismatch": digits computed step by step there.
  test.each(["11491-8", "11501-4", "5895-8", "5896-6"])(
    "%s has the digit that the guide's steps give",
    (code) => {
      expect(isLoinc(code)).toBe(true)
    },
  )

  test.each(["2160-1", "2160", "2160-", "-0", "12345678-1", "2160-00", "a160-0", "2160–0", ""])(
    "%j is none",
    (text) => {
      expect(isLoinc(text)).toBe(false)
    },
  )

  test("every LOINC code of our list is well formed", () => {
    const codes = [...readLabCodes().codes.keys()].filter((code) => /^\d/.test(code))

    expect(codes.length).toBeGreaterThan(40)
    expect(codes.filter((code) => !isLoinc(code))).toEqual([])
  })
})
