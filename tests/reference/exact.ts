/** A fraction in lowest terms with a positive denominator: exact at any size, as slow as that is. */
export type Exact = { readonly over: bigint; readonly under: bigint }

export const zero: Exact = { over: 0n, under: 1n }

/** The number a text writes, for example "129.5" as 259/2; null when it is no plain decimal number. */
export function exactFromText(text: string): Exact | null {
  const parts = /^([+-]?)(?:(\d+)(?:\.(\d+))?|\.(\d+))$/.exec(text)
  if (!parts) return null
  const whole = parts[2] ?? ""
  const fraction = parts[3] ?? parts[4] ?? ""
  const size = BigInt(whole + fraction)
  return fractionOf(parts[1] === "-" ? -size : size, 10n ** BigInt(fraction.length))
}

/** As exactFromText for a number the program itself writes. */
export function exact(text: string): Exact {
  const value = exactFromText(text)
  if (!value) throw new RangeError(`exact requires a decimal number, not ${text}`)
  return value
}

export function plus(a: Exact, b: Exact): Exact {
  return fractionOf(a.over * b.under + b.over * a.under, a.under * b.under)
}

export function minus(a: Exact, b: Exact): Exact {
  return fractionOf(a.over * b.under - b.over * a.under, a.under * b.under)
}

export function times(a: Exact, b: Exact): Exact {
  return fractionOf(a.over * b.over, a.under * b.under)
}

export function dividedBy(a: Exact, b: Exact): Exact {
  if (b.over === 0n) throw new RangeError("dividedBy requires a divisor that is not 0")
  const sign = b.over < 0n ? -1n : 1n
  return fractionOf(a.over * b.under * sign, a.under * b.over * sign)
}

/** Below 0 when a is the smaller, above 0 when it is the larger, 0 when they are equal. */
export function compare(a: Exact, b: Exact): number {
  const difference = a.over * b.under - b.over * a.under
  return difference < 0n ? -1 : difference > 0n ? 1 : 0
}

export function mean(values: Exact[]): Exact {
  if (values.length === 0) throw new RangeError("mean requires at least 1 value")
  return dividedBy(values.reduce(plus, zero), exact(String(values.length)))
}

/** floor(x + 0.5) on the exact value: 129.5 is 130 and -0.5 is 0. */
export function roundedHalfUp(value: Exact): number {
  return Number(floorOf(plus(value, exact("0.5"))))
}

export function floorOf(value: Exact): bigint {
  const quotient = value.over / value.under
  return value.over < 0n && value.over % value.under !== 0n ? quotient - 1n : quotient
}

/** The nearest double, but for the last digit or two. */
export function toNumber(value: Exact): number {
  const whole = floorOf(value)
  const rest = value.over - whole * value.under
  return Number(whole) + Number((rest * 10n ** 18n) / value.under) / 1e18
}

function fractionOf(over: bigint, under: bigint): Exact {
  const divisor = greatestCommonDivisor(over < 0n ? -over : over, under)
  return { over: over / divisor, under: under / divisor }
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : greatestCommonDivisor(b, a % b)
}
