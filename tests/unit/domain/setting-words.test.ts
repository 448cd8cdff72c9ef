import { expect, test } from "vitest"
import { defaultSettings } from "../../../lib/domain/settings"
import { withSettings } from "../../../lib/domain/setting-words"

test("what the clinic set stands where words name a setting", () => {
  const settings = { ...defaultSettings, "drugs.several": 4, "diet.limitMg": 2300 }

  expect(withSettings("on {drugs.several} or more classes, above {diet.limitMg} mg", settings)).toBe(
    "on 4 or more classes, above 2,300 mg",
  )
})

test("a setting without a value is said to be not set", () => {
  expect(withSettings("{bp.homeSystolicTarget}", defaultSettings)).toBe("not set")
})

test("counts in braces are left to the sentence", () => {
  expect(withSettings("{met} of {all}", defaultSettings)).toBe("{met} of {all}")
})

test("a setting nobody has is a mistake", () => {
  expect(() => withSettings("{bp.colour}", defaultSettings)).toThrow(RangeError)
})
