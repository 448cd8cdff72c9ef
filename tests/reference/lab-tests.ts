import { compare, dividedBy, exact, times, type Exact } from "./exact"

/** LOINC codes of the tests, after the value sets of the CMS quality measures and US Core. */
export const testByLoinc: Record<string, string> = {
  "2160-0": "creatinine",
  "14682-9": "creatinine",
  "38483-4": "creatinine",
  "59826-8": "creatinine",
  "77140-2": "creatinine",
  "33863-2": "cystatin_c",
  "98979-8": "egfr",
  "62238-1": "egfr",
  "33914-3": "egfr",
  "77147-7": "egfr",
  "9318-7": "uacr",
  "14959-1": "uacr",
  "32294-1": "uacr",
  "30000-4": "uacr",
  "77253-3": "uacr",
  "2890-2": "upcr",
  "34366-5": "upcr",
  "2889-4": "urine_protein_24h",
  "2823-3": "potassium",
  "6298-4": "potassium",
  "1963-8": "bicarbonate",
  "718-7": "haemoglobin",
  "4548-4": "hba1c",
  "2956-1": "urine_sodium_24h",
  "2162-6": "urine_creatinine_24h",
  "2955-3": "urine_sodium_spot",
  "2161-8": "urine_creatinine_spot",
  "2828-2": "urine_potassium_spot",
}

type Conversion = (reported: Exact) => Exact

const asIs: Conversion = (reported) => reported
const by =
  (factor: string): Conversion =>
  (reported) =>
    times(reported, exact(factor))
const dividedBy88: Conversion = (reported) => dividedBy(reported, exact("88.4"))

const ratioUnits = { "mg/g": asIs, "ug/mg": asIs, "mg/mmol": by("8.84"), "g/mol": by("8.84") }
const milliequivalents = { "mmol/l": asIs, "meq/l": asIs }

/** Units in the spelling of plainUnit, each with the step to the standard unit of the test. */
export const unitsByTest: Record<string, Record<string, Conversion>> = {
  creatinine: { "mg/dl": asIs, "umol/l": dividedBy88 },
  cystatin_c: { "mg/l": asIs },
  egfr: { "": asIs, "ml/min": asIs, "ml/min/1.73m2": asIs, "ml/min/1.73m^2": asIs, "ml/min/": asIs },
  uacr: ratioUnits,
  upcr: { ...ratioUnits, "g/g": by("1000"), "mg/mg": by("1000") },
  urine_protein_24h: { "mg/d": asIs, "g/d": by("1000") },
  potassium: milliequivalents,
  bicarbonate: milliequivalents,
  haemoglobin: { "g/dl": asIs, "g/l": by("0.1") },
  hba1c: { "%": asIs, "mmol/mol": asIs },
  urine_sodium_24h: { "mmol/d": asIs, "mmol/24h": asIs, "meq/d": asIs, "meq/24h": asIs },
  urine_creatinine_24h: { "mmol/d": asIs, "g/d": asIs },
  urine_sodium_spot: milliequivalents,
  urine_creatinine_spot: { "mg/dl": asIs, "mmol/l": asIs },
  urine_potassium_spot: milliequivalents,
}

const plausibleRanges: Record<string, readonly [string, string]> = {
  creatinine: ["0.1", "30"],
  potassium: ["1.5", "10"],
  uacr: ["0", "30000"],
  upcr: ["0", "50000"],
  urine_sodium_24h: ["5", "870"],
  egfr: ["1", "250"],
}

/** Is the value, in the standard unit of its test, one a person can have? The ends are allowed. */
export function isPlausible(test: string, value: Exact): boolean {
  const range = plausibleRanges[test]
  if (!range) return true
  return compare(value, exact(range[0])) >= 0 && compare(value, exact(range[1])) <= 0
}

/** A unit without case, blanks, brace annotations, UCUM brackets round "24.h", and the kind of micro sign. */
export function plainUnit(unit: string): string {
  return unit
    .replace(/\{[^}]*\}/g, "")
    .replace(/\s/g, "")
    .toLowerCase()
    .replace(/^[\u00b5\u03bc]/, "u")
    .replace(/^mcg/, "ug")
    .replace("(24.h)", "24h")
}

/** Is the ratio reported per mmol of creatinine? Its categories then have limits of their own. */
export function isPerMillimole(plain: string): boolean {
  return plain === "mg/mmol" || plain === "g/mol"
}
