import { readFileSync } from "node:fs"
import path from "node:path"
import { parse } from "csv-parse/sync"
import { z } from "zod"
import type { Decimal } from "./decimals"

/** A code or word of the column `test`, and what kind of quantity a code measures (empty: it does not say). */
export type LabCode = { test: string; dimension: string }

/** A unit as we spell it, and the step to the standard unit of its test: number x factor + offset. */
export type LabUnit = {
  unit: string
  dimension: string
  factor: Decimal
  offset: Decimal
  standardUnit: string
}

export type LabCodes = {
  codes: ReadonlyMap<string, LabCode>
  /** Allowed values by test, ends included, in its standard unit. */
  limitsByTest: ReadonlyMap<string, { low: Decimal; high: Decimal }>
  unitsByTest: ReadonlyMap<string, ReadonlyMap<string, LabUnit>>
}

const TestRow = z.object({
  code: z.string().min(1),
  test: z.string().min(1),
  dimension: z.string(),
  low: z.string(),
  high: z.string(),
})

const UnitRow = z.object({
  test: z.string().min(1),
  spelling: z.string(),
  unit: z.string(),
  dimension: z.string(),
  factor: z.string(),
  offset: z.string(),
  standard_unit: z.string(),
})

/** The laboratory code lists that the project ships, lib/clinical/codes/lab-tests.csv and lab-units.csv. */
export function readLabCodes(): LabCodes {
  return parseLabCodes({ tests: readCodeList("lab-tests.csv"), units: readCodeList("lab-units.csv") })
}

export function parseLabCodes(lists: { tests: string; units: string }): LabCodes {
  const tests = z.array(TestRow).parse(parse(lists.tests, { columns: true }))
  const units = z.array(UnitRow).parse(parse(lists.units, { columns: true }))
  const unitsByTest = new Map<string, Map<string, LabUnit>>()
  for (const { test, spelling, unit, dimension, factor, offset, standard_unit } of units) {
    const ofTest = unitsByTest.get(test) ?? new Map<string, LabUnit>()
    ofTest.set(spelling, { unit, dimension, factor, offset, standardUnit: standard_unit })
    unitsByTest.set(test, ofTest)
  }
  return {
    codes: new Map(tests.map(({ code, test, dimension }) => [code, { test, dimension }])),
    limitsByTest: new Map(
      tests.filter(({ low }) => low !== "").map(({ test, low, high }) => [test, { low, high }]),
    ),
    unitsByTest,
  }
}

/** A unit without what the contract ignores: case, blanks, the kind of micro sign, UCUM annotations in braces. */
export function plainUnit(unit: string): string {
  return unit
    .replace(/\{[^}]*\}/g, "")
    .replace(/\s/g, "")
    .replace(/[\u00b5\u03bc]/g, "u")
    .toLowerCase()
}

function readCodeList(file: string): string {
  return readFileSync(path.resolve(process.cwd(), "lib/clinical/codes", file), "utf8")
}
