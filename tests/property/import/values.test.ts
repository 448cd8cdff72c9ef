import fc from "fast-check"
import { expect, test } from "vitest"
import { dayFromText, textOfDay } from "../../../lib/import/calendar"
import { compareDecimals, convertDecimal, decimalFromText } from "../../../lib/import/decimals"

const digits = fc.stringMatching(/^\d{1,12}$/)
const written = fc
  .tuple(fc.constantFrom("", "+", "-"), digits, fc.option(digits))
  .map(([sign, whole, fraction]) => `${sign}${whole}${fraction === null ? "" : `.${fraction}`}`)

/** The number as an integer of 10^-24. */
function exact(text: string): bigint {
  const [whole = "", fraction = ""] = text.replace(/[+-]/, "").split(".")
  const size = BigInt(whole + fraction.padEnd(24, "0"))
  return text.startsWith("-") ? -size : size
}

test("a number keeps its value, and equal numbers are equal text", () => {
  fc.assert(
    fc.property(written, written, (a, b) => {
      const [first, second] = [decimalFromText(a) ?? "", decimalFromText(b) ?? ""]

      expect(exact(first)).toBe(exact(a))
      expect(first === second).toBe(exact(a) === exact(b))
      expect(decimalFromText(first)).toBe(first)
    }),
  )
})

test("numbers compare as they are", () => {
  fc.assert(
    fc.property(written, written, (a, b) => {
      const difference = exact(a) - exact(b)
      const compared = compareDecimals(decimalFromText(a) ?? "", decimalFromText(b) ?? "")

      expect(Math.sign(compared)).toBe(difference === 0n ? 0 : difference < 0n ? -1 : 1)
    }),
  )
})

test("a conversion is exact", () => {
  const short = fc.stringMatching(/^-?\d{1,6}\.\d{1,6}$/)
  fc.assert(
    fc.property(short, short, short, (a, b, c) => {
      const [number, factor, offset] = [a, b, c].map((text) => decimalFromText(text) ?? "")
      const converted = convertDecimal(number ?? "", factor ?? "", offset ?? "")
      const unit = 10n ** 24n

      expect(exact(converted) * unit).toBe(exact(a) * exact(b) + exact(c) * unit)
    }),
  )
})

test("every day comes back from its text", () => {
  fc.assert(
    fc.property(fc.integer({ min: -719_162, max: 2_932_896 }), (day) => {
      expect(dayFromText(textOfDay(day))).toBe(day)
    }),
  )
})
