import { describe, expect, test } from "vitest"
import { checkRow, goodValues, verdictOn } from "../../helpers/check-rows"

const lab = { patient_id: "P1", collected_at: "2026-01-10T09:30" }

function result(test: string, value: string, unit: string, more: Record<string, string> = {}) {
  return { ...lab, test, value, unit, ...more }
}

describe("a result is kept as reported and in the standard unit of its test", () => {
  test.each([
    ["creatinine", "1.20", "mg/dl", { number: "1.2", unit: "mg/dL", value: "106.08" }],
    ["creatinine", "106", "µmol/L", { number: "106", unit: "umol/L", value: "106" }],
    ["uacr", "30", "mg/mmol", { number: "30", unit: "mg/mmol", value: "265.2" }],
    ["uacr", "30", "mg/g{creat}", { number: "30", unit: "mg/g", value: "30" }],
    ["upcr", "0.5", "g/g", { number: "0.5", unit: "g/g", value: "500" }],
    ["potassium", "5.1", "mEq/L", { number: "5.1", unit: "meq/L", value: "5.1" }],
    ["haemoglobin", "11.2", "g/dL", { number: "11.2", unit: "g/dL", value: "112" }],
    ["hba1c", "48", "mmol/mol", { number: "48", unit: "mmol/mol", value: "6.54304" }],
    ["urine_creatinine_24h", "1.2", "g/d", { number: "1.2", unit: "g/d", value: "10.608" }],
    ["urine_creatinine_spot", "100", "mg/dL", { number: "100", unit: "mg/dL", value: "8.84" }],
    ["urine_protein_24h", "1.5", "g/d", { number: "1.5", unit: "g/d", value: "1500" }],
    ["urine_sodium_24h", "150", "meq/24h", { number: "150", unit: "meq/d", value: "150" }],
    ["egfr", "47", "", { number: "47", unit: null, value: "47" }],
    ["egfr", "47", "mL/min/{1.73_m2}", { number: "47", unit: "mL/min/1.73m2", value: "47" }],
  ])("%s %s %s", (test, value, unit, expected) => {
    expect(goodValues("labs", result(test, value, unit))).toMatchObject({
      ...{ test, is_used: true, ...expected },
      ...{ value_text: value, unit_text: unit === "" ? null : unit },
    })
  })
})

describe("comparators", () => {
  test.each([
    ["<5", "<", "5"],
    ["< 5", "<", "5"],
    ["<=5.0", "<=", "5"],
    ["≤5", "<=", "5"],
    [">300", ">", "300"],
    ["≥ 300", ">=", "300"],
    [">= 300", ">=", "300"],
    ["300", null, "300"],
  ])("%s", (value, comparator, number) => {
    expect(goodValues("labs", result("uacr", value, "mg/g"))).toMatchObject({ comparator, number })
  })

  test.each(["=5", "> = 5", "~5", "5<", "less than 5", ">", "see note", "5 mg/g"])(
    "%j is no value",
    (value) => {
      expect(verdictOn("labs", result("uacr", value, "mg/g"))).toBe("value unreadable")
    },
  )
})

describe("plausible ranges hold after conversion, ends allowed", () => {
  test.each([
    ["creatinine", "mg/dL", "0.1", "0.0999"],
    ["creatinine", "mg/dL", "30", "30.0001"],
    ["creatinine", "umol/L", "8.84", "8.8399"],
    ["creatinine", "umol/L", "2652", "2652.01"],
    ["potassium", "mmol/L", "1.5", "1.49"],
    ["potassium", "meq/L", "10", "10.01"],
    ["uacr", "mg/g", "0", "-0.1"],
    ["uacr", "mg/g", "30000", "30000.1"],
    // 30,000 / 8.84 = 3393.665...
    ["uacr", "mg/mmol", "3393.66", "3393.67"],
    ["upcr", "mg/g", "50000", "50001"],
    ["upcr", "g/g", "50", "50.001"],
    ["urine_sodium_24h", "mmol/d", "5", "4.99"],
    ["urine_sodium_24h", "meq/d", "870", "870.1"],
    ["egfr", "mL/min", "1", "0.9"],
    ["egfr", "", "250", "251"],
  ])("%s %s: %s is taken, %s is not", (test, unit, inside, outside) => {
    expect(verdictOn("labs", result(test, inside, unit))).toBe("good")
    expect(verdictOn("labs", result(test, outside, unit))).toBe("value implausible")
  })
})

describe("units are never guessed", () => {
  test.each([
    ["creatinine", ""],
    ["creatinine", "mmol/L"],
    ["creatinine", "{serum}"],
    ["uacr", "mg/L"],
    ["uacr", "g/g"],
    ["potassium", "mg/dL"],
    ["haemoglobin", "mmol/L"],
    ["hba1c", ""],
  ])("%s in %j is rejected", (test, unit) => {
    expect(verdictOn("labs", result(test, "5", unit))).toBe("unit unknown-unit")
  })
})

describe("LOINC codes", () => {
  test("a code on the list is its test, and is kept beside it", () => {
    expect(goodValues("labs", result("2823-3", "4.4", "mmol/L"))).toMatchObject({
      ...{ test: "potassium", loinc: "2823-3", is_used: true, value: "4.4" },
    })
  })

  test("test words are read in any case", () => {
    expect(goodValues("labs", result("Cystatin_C", "1.1", "mg/L"))).toMatchObject({
      test: "cystatin_c",
      loinc: null,
    })
  })

  test("for creatinine, ACR and PCR the unit decides and the disagreement is told", () => {
    const odd = { verdict: "good", remarks: { isUnitOdd: true } }
    const fine = { verdict: "good", remarks: { isUnitOdd: false } }
    expect(checkRow("labs", result("2160-0", "106", "umol/L"))).toMatchObject(odd)
    expect(checkRow("labs", result("2160-0", "1.2", "mg/dL"))).toMatchObject(fine)
    expect(checkRow("labs", result("9318-7", "3", "mg/mmol"))).toMatchObject(odd)
    expect(checkRow("labs", result("2890-2", "3", "mg/mmol"))).toMatchObject(odd)
    expect(checkRow("labs", result("32294-1", "3", "mg/mmol"))).toMatchObject(fine)
  })

  test("for other tests code and unit must agree", () => {
    expect(verdictOn("labs", result("4548-4", "6.5", "%"))).toBe("good")
    expect(verdictOn("labs", result("4548-4", "48", "mmol/mol"))).toBe("unit unknown-unit")
    expect(verdictOn("labs", result("59261-8", "48", "mmol/mol"))).toBe("good")
    expect(verdictOn("labs", result("2162-6", "1.2", "g/d"))).toBe("good")
    expect(verdictOn("labs", result("2162-6", "10", "mmol/d"))).toBe("unit unknown-unit")
  })

  test("a well-formed code on no list is kept, not used, and told", () => {
    const checked = checkRow("labs", result("2777-1", "> 4.2", "mg/dL"))
    expect(checked).toMatchObject({ verdict: "good", remarks: { unlistedLoinc: "2777-1" } })
    expect(goodValues("labs", result("2777-1", "> 4.2", "mg/dL"))).toMatchObject({
      ...{ test: "2777-1", loinc: "2777-1", is_used: false, comparator: ">", number: "4.2", value: null },
      ...{ unit: null, value_text: "> 4.2", unit_text: "mg/dL" },
    })
    expect(goodValues("labs", result("5778-6", "yellow", ""))).toMatchObject({
      number: null,
      value_text: "yellow",
    })
  })

  test.each(["2777-2", "phosphate", "27771", "LP123-4"])("%s is no test", (test) => {
    expect(verdictOn("labs", result(test, "4", "mg/dL"))).toBe("test unknown-test")
  })
})

describe("dipsticks", () => {
  test.each(["negative", "Trace", "1+", "2+", "3+", "4+"])("%s in any unit or none", (value) => {
    expect(goodValues("labs", result("urine_dipstick_protein", value, ""))).toMatchObject({
      ...{ number: null, value: null, unit: null, value_text: value, is_used: true },
    })
    expect(verdictOn("labs", result("20454-5", value, "arb"))).toBe("good")
  })

  test.each(["5+", "+", "30", "neg"])("%s is no result", (value) => {
    expect(verdictOn("labs", result("urine_dipstick_protein", value, ""))).toBe("value unknown-word")
  })
})

test("status is final unless said, and haemolysis is kept", () => {
  expect(goodValues("labs", result("potassium", "6", "mmol/L"))).toMatchObject({
    status: "final",
    is_haemolysed: null,
  })
  const row = result("potassium", "6", "mmol/L", { status: "Preliminary", haemolysed: "yes" })
  expect(goodValues("labs", row)).toMatchObject({ status: "preliminary", is_haemolysed: true })
  expect(verdictOn("labs", { ...row, status: "draft" })).toBe("status unknown-word")
})
