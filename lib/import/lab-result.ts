import type { Cells } from "./cells"
import { compareDecimals, convertDecimal, decimalFromText, type Decimal } from "./decimals"
import { plainUnit, type LabCodes, type LabUnit } from "./lab-codes"
import { isLoinc } from "./loinc"

/** Which test a row is of; a LOINC code on no list is kept as its own test and not used. */
export type LabTest = { test: string; loinc: string | null; dimension: string; isUsed: boolean }

export type LabResult = {
  comparator: string | null
  /** In the standard unit of the test. */
  value: Decimal | null
  /** As reported, in `unit`. */
  number: Decimal | null
  unit: string | null
  /** The code speaks of another kind of unit than the row has, where the unit decides. */
  isUnitOdd: boolean
}

const dipstick = "urine_dipstick_protein"
const dipstickWords = ["negative", "trace", "1+", "2+", "3+", "4+"] as const
const unitDecides = new Set(["creatinine", "uacr", "upcr"])
const comparators: Readonly<Record<string, string>> = { "≤": "<=", "≥": ">=" }
const nothing: LabResult = { comparator: null, value: null, number: null, unit: null, isUnitOdd: false }

export function readLabTest(cells: Cells, { codes }: LabCodes): LabTest {
  const text = cells.need.text("test")
  const word = text.toLowerCase()
  const known = codes.get(word)
  if (known) {
    const loinc = known.test === word ? null : word
    return { test: known.test, loinc, dimension: known.dimension, isUsed: true }
  }
  if (!isLoinc(text)) cells.reject("test", "unknown-test", "is neither a test of the list nor a LOINC code")
  return { test: text, loinc: text, dimension: "", isUsed: false }
}

export function readLabResult(cells: Cells, test: LabTest, labCodes: LabCodes): LabResult {
  const text = cells.need.text("value")
  if (!test.isUsed) return { ...nothing, ...parseValue(text) }
  if (test.test === dipstick) {
    cells.word("value", dipstickWords)
    return nothing
  }
  const { comparator, number } = parseValue(text)
  if (number === null) {
    cells.reject("value", "unreadable", "is not a number, alone or after <, <=, > or >=")
    return nothing
  }
  const unit = readUnit(cells, test, labCodes)
  if (!unit) return nothing
  const value = convertDecimal(number, unit.factor, unit.offset)
  rejectImplausible(cells, value, { limits: labCodes.limitsByTest.get(test.test), unit })
  const isUnitOdd = test.dimension !== "" && test.dimension !== unit.dimension
  if (isUnitOdd && !unitDecides.has(test.test))
    cells.reject("unit", "unknown-unit", "does not belong to the LOINC code of the test")
  return { comparator, value, number, unit: unit.unit === "" ? null : unit.unit, isUnitOdd }
}

function parseValue(text: string): { comparator: string | null; number: Decimal | null } {
  const match = /^(<=|>=|[<>≤≥])?\s*(.*)$/s.exec(text)
  const sign = match?.[1] ?? null
  const number = decimalFromText(match?.[2] ?? "")
  return { comparator: sign === null || number === null ? null : (comparators[sign] ?? sign), number }
}

function readUnit(cells: Cells, { test }: LabTest, { unitsByTest }: LabCodes): LabUnit | null {
  const units = unitsByTest.get(test)
  const unit = units?.get(plainUnit(cells.raw("unit"))) ?? null
  if (unit) return unit
  const allowed = [...new Set([...(units?.values() ?? [])].map((one) => one.unit))].filter(Boolean)
  cells.reject("unit", "unknown-unit", `of ${test} must be one of: ${allowed.join(", ")}`)
  return null
}

function rejectImplausible(
  cells: Cells,
  value: Decimal,
  { limits, unit }: { limits: { low: Decimal; high: Decimal } | undefined; unit: LabUnit },
): void {
  if (!limits) return
  if (compareDecimals(value, limits.low) >= 0 && compareDecimals(value, limits.high) <= 0) return
  const range = `from ${limits.low} to ${limits.high} ${unit.standardUnit}`
  cells.reject("value", "implausible", `must be ${range}${unit.factor === "1" ? "" : " once converted"}`)
}
