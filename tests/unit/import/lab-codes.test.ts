import { UcumLhcUtils } from "@lhncbc/ucum-lhc"
import { describe, expect, test } from "vitest"
import { plainUnit, readLabCodes } from "../../../lib/import/lab-codes"

const labCodes = readLabCodes()
const ucum = UcumLhcUtils.getInstance()

const tests = [
  ...["creatinine", "cystatin_c", "egfr", "uacr", "upcr", "urine_protein_24h", "urine_dipstick_protein"],
  ...["potassium", "bicarbonate", "haemoglobin", "hba1c", "urine_sodium_24h", "urine_creatinine_24h"],
  ...["urine_sodium_spot", "urine_creatinine_spot", "urine_potassium_spot"],
]

describe("the lists hold what the extract contract names", () => {
  test("every test by its word", () => {
    const words = [...labCodes.codes.keys()].filter((code) => !/^\d/.test(code))

    expect(words.sort()).toEqual([...tests].sort())
    expect([...labCodes.codes.values()].filter(({ test }) => !tests.includes(test))).toEqual([])
  })

  test.each([
    ["creatinine", ["mg/dL", "umol/L"]],
    ["uacr", ["mg/g", "ug/mg", "mg/mmol", "g/mol"]],
    ["upcr", ["mg/g", "ug/mg", "mg/mmol", "g/mol", "g/g", "mg/mg"]],
    ["potassium", ["mmol/L", "meq/L"]],
    ["urine_sodium_24h", ["mmol/d", "mmol/24h", "meq/d", "meq/24h", "mmol/(24.h)"]],
    ["cystatin_c", ["mg/L"]],
    ["hba1c", ["%", "mmol/mol"]],
    ["haemoglobin", ["g/dL", "g/L"]],
    ["bicarbonate", ["mmol/L", "meq/L"]],
    ["urine_sodium_spot", ["mmol/L", "meq/L"]],
    ["urine_potassium_spot", ["mmol/L", "meq/L"]],
    ["urine_creatinine_spot", ["mg/dL", "mmol/L"]],
    ["urine_creatinine_24h", ["mmol/d", "g/d"]],
    ["urine_protein_24h", ["mg/d", "g/d"]],
    ["egfr", ["", "mL/min", "mL/min/1.73m2", "mL/min/{1.73_m2}", "mL/min/1.73 m2"]],
  ])("the units of %s", (test, units) => {
    const known = labCodes.unitsByTest.get(test)
    expect(units.filter((unit) => !known?.has(plainUnit(unit)))).toEqual([])
  })

  test.each(["mmol/L", "umol/dL", "g/L", "", "mg", "mg%"])("creatinine knows no unit %j", (unit) => {
    expect(labCodes.unitsByTest.get("creatinine")?.has(plainUnit(unit))).toBe(false)
  })

  test("the plausible range of every test that has one, in its standard unit", () => {
    expect(Object.fromEntries(labCodes.limitsByTest)).toEqual({
      creatinine: { low: "8.84", high: "2652" },
      potassium: { low: "1.5", high: "10" },
      uacr: { low: "0", high: "30000" },
      upcr: { low: "0", high: "50000" },
      urine_sodium_24h: { low: "5", high: "870" },
      egfr: { low: "1", high: "250" },
    })
  })
})

describe("case, blanks, the kind of micro sign and annotations are ignored in a unit", () => {
  test.each([
    ["UMOL/L", "umol/l"],
    ["\u00b5mol/L", "umol/l"],
    ["\u03bcmol / L", "umol/l"],
    ["mg/g{creat}", "mg/g"],
    ["{note} mg/dL ", "mg/dl"],
    ["mmol/(24.h)", "mmol/(24.h)"],
  ])("%j is %s", (unit, plain) => {
    expect(plainUnit(unit)).toBe(plain)
  })
})

// The reference library of the US National Library of Medicine for UCUM. It converts between mass and amount with the
// molar mass given here: creatinine C4H7N3O = 113.12 g/mol.
describe("factors agree with the UCUM reference library", () => {
  const molecularWeight = 113.12
  // Our clinical factors are the published rounded ones (88.4 for 1000 / 11.312, 8.84 for 1000 / 113.12).
  const roundedFactor = 3e-4
  const shown: Record<string, string> = { "mmol/24h": "mmol/d", "meq/24h": "meq/d" }

  const factors = [...labCodes.unitsByTest].flatMap(([test, units]) =>
    [...units.values()]
      .filter(({ unit }) => test !== "hba1c" && test !== "egfr" && unit !== "")
      .map(({ unit, factor, standardUnit }) => ({ test, unit, factor: Number(factor), standardUnit })),
  )

  test.each(factors)("$test $unit x $factor is $standardUnit", ({ unit, factor, standardUnit }) => {
    const isPerMole = /\/m?mol$/.test(unit) !== /\/m?mol$/.test(standardUnit)
    const converted = isPerMole
      ? // Per amount of creatinine to per mass: the library converts the amount below the line.
        1 /
        (ucum.convertUnitTo(unit.split("/")[1] ?? "", 1, "g", { molecularWeight }).toVal ?? Number.NaN) /
        (unit.startsWith("g") ? 1e-3 : 1)
      : ucum.convertUnitTo(shown[unit] ?? unit, 1, standardUnit, { molecularWeight, charge: 1 }).toVal

    expect(Math.abs((converted ?? Number.NaN) / factor - 1)).toBeLessThan(roundedFactor)
  })

  test("all of them were compared", () => {
    expect(factors.length).toBeGreaterThan(30)
  })
})

// NGSP, IFCC standardization of HbA1c, master equation: NGSP = 0.09148 x IFCC + 2.152; its table pairs 48 mmol/mol with
// 6.5 % and 53 with 7.0 %.
test.each([
  [48, 6.5],
  [53, 7.0],
  [42, 6.0],
  [64, 8.0],
])("an HbA1c of %i mmol/mol is %s %%", (ifcc, ngsp) => {
  const unit = labCodes.unitsByTest.get("hba1c")?.get("mmol/mol")
  const converted = ifcc * Number(unit?.factor) + Number(unit?.offset)

  expect(converted.toFixed(1)).toBe(ngsp.toFixed(1))
})
