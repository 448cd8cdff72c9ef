/** A decimal number in one spelling: no plus sign, no needless zeros, so that equal numbers are equal text. */
export type Decimal = string

const usual = /^(?:0|[1-9]\d{0,14})$/
const allowed = /^([+-]?)(\d*)(?:\.(\d+))?$/
const longest = 40

/** The number a text of the extract writes, `[+-]?(digits[.digits]|.digits)`; null when it writes none. */
export function decimalFromText(text: string): Decimal | null {
  if (usual.test(text)) return text
  if (text.length > longest) return null
  const match = allowed.exec(text)
  if (!match) return null
  const [, sign, whole = "", fraction = ""] = match
  if (whole === "" && fraction === "") return null
  return spell(sign === "-", whole, fraction)
}

/** Below zero when a is the smaller, above when b is, zero when they are the same number. */
export function compareDecimals(a: Decimal, b: Decimal): number {
  // Up to 15 significant digits a double tells any two decimals apart and keeps their order.
  if (a.length <= 15 && b.length <= 15) return Number(a) - Number(b)
  const scale = Math.max(fractionDigits(a), fractionDigits(b))
  const difference = scaled(a, scale) - scaled(b, scale)
  return difference === 0n ? 0 : difference < 0n ? -1 : 1
}

/** number x factor + offset, exactly. */
export function convertDecimal(number: Decimal, factor: Decimal, offset: Decimal): Decimal {
  if (factor === "1" && offset === "0") return number
  const scale = Math.max(fractionDigits(number) + fractionDigits(factor), fractionDigits(offset))
  const product = scaled(number, fractionDigits(number)) * scaled(factor, scale - fractionDigits(number))
  const sum = product + scaled(offset, scale)
  const digits = (sum < 0n ? -sum : sum).toString().padStart(scale + 1, "0")
  return spell(sum < 0n, digits.slice(0, digits.length - scale), digits.slice(digits.length - scale))
}

function spell(isNegative: boolean, whole: string, fraction: string): Decimal {
  const units = whole.replace(/^0+(?=\d)/, "") || "0"
  const decimals = fraction.replace(/0+$/, "")
  const size = decimals === "" ? units : `${units}.${decimals}`
  return isNegative && size !== "0" ? `-${size}` : size
}

function fractionDigits(decimal: Decimal): number {
  const point = decimal.indexOf(".")
  return point < 0 ? 0 : decimal.length - point - 1
}

function scaled(decimal: Decimal, scale: number): bigint {
  return BigInt(decimal.replace(".", "")) * 10n ** BigInt(scale - fractionDigits(decimal))
}
