import { describe, expect, test } from "vitest"
import { RowNumber } from "../../../lib/domain/row-number"
import { TypedText } from "../../../lib/domain/typed-text"

// Inputs under which a form or an address once ended in a failure of the record store instead of a refusal.
describe("a typed text", () => {
  test.each(["a\0b", "\u001b[31m", "\u007f", "\u0008"])("%j holds a control character", (text) => {
    expect(TypedText.safeParse(text).success).toBe(false)
  })

  test.each(["two\nlines", "a\tb", "Größe ≥ 3", "", "𝄞"])("%j does not", (text) => {
    expect(TypedText.parse(text)).toBe(text)
  })
})

describe("the number of a row", () => {
  test.each(["2147483648", "9007199254740993", "0", "-1", "1.5", "", "x", "NaN"])("is not %j", (text) => {
    expect(RowNumber.safeParse(text).success).toBe(false)
  })

  test("is at most what the column holds", () => {
    expect(RowNumber.parse("2147483647")).toBe(2147483647)
  })
})
