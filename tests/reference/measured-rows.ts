import { required, RowRejected, type Cells } from "./cells"
import { compare, exact, exactFromText } from "./exact"
import type { Lab, Reading } from "./facts"
import { isPerMillimole, isPlausible, plainUnit, testByLoinc, unitsByTest } from "./lab-tests"
import { contentOf, keyOf, patientOf, rejectOutside, type RowParser } from "./row-parser"

const settings = ["office", "home", "ambulatory", "emergency", "inpatient", "dialysis"]

export const readingRows: RowParser<Reading> = {
  file: "readings.csv",
  columns: ["patient_id", "taken_at", "systolic", "diastolic", "setting"],
  key: (cells) => {
    const id = cells.text("reading_id")
    if (id !== null) return keyOf([id])
    const at = required(cells.eventTime("taken_at"), "taken_at")
    const [systolic, diastolic] = [cells.number("systolic"), cells.number("diastolic")]
    return keyOf([patientOf(cells), at.instant, cells.word("setting", settings), systolic, diastolic], true)
  },
  fact: (cells) => {
    const { instant, day } = required(cells.eventTime("taken_at"), "taken_at")
    const setting = required(cells.word("setting", settings), "setting")
    const systolic = required(cells.number("systolic"), "systolic")
    const diastolic = required(cells.number("diastolic"), "diastolic")
    rejectOutside(systolic, "50", "300")
    rejectOutside(diastolic, "20", "200")
    if (compare(systolic, diastolic) <= 0) throw new RowRejected("systolic is not above diastolic")
    const content = contentOf([instant, setting, systolic, diastolic, cells.number("pulse")])
    const fact = { patientId: patientOf(cells), content, instant, day, setting, systolic, diastolic }
    return { fact, events: [day] }
  },
}

export const labRows: RowParser<Lab> = {
  file: "labs.csv",
  columns: ["patient_id", "collected_at", "test", "value", "unit"],
  key: (cells) => {
    const id = cells.text("lab_id")
    if (id !== null) return keyOf([id])
    const at = required(cells.eventTime("collected_at"), "collected_at")
    return keyOf([patientOf(cells), at.instant, testOf(cells)], true)
  },
  fact: (cells) => {
    const { instant, day } = required(cells.eventTime("collected_at"), "collected_at")
    const test = testOf(cells)
    const unit = plainUnit(cells.text("unit") ?? "")
    const written = required(cells.text("value"), "value")
    const result = resultOf(test, written, unit)
    const status = cells.word("status", ["final", "corrected", "preliminary"]) ?? "final"
    const isHaemolysed = cells.yesOrNo("haemolysed") ?? false
    const { comparator, reported, value } = result
    const content = contentOf([instant, test, comparator, reported, unit, status, isHaemolysed])
    const fact = {
      ...{ patientId: patientOf(cells), content, instant, day, test, comparator, value, reported },
      isPerMillimole: isPerMillimole(unit),
      isPreliminary: status === "preliminary",
      isHaemolysed,
    }
    return { fact, events: [day] }
  },
}

function testOf(cells: Cells): string {
  const written = required(cells.text("test"), "test").toLowerCase()
  if (written in testByLoinc) return testByLoinc[written] ?? written
  if (written in unitsByTest || written === "urine_dipstick_protein") return written
  if (/^\d{1,7}-\d$/.test(written)) return written
  throw new RowRejected("unknown test")
}

function resultOf(
  test: string,
  written: string,
  unit: string,
): Pick<Lab, "comparator" | "reported" | "value"> {
  const units = unitsByTest[test]
  const parts = /^(<=|>=|<|>|\u2264|\u2265)?\s*(.*)$/.exec(written)
  const number = exactFromText(parts?.[2] ?? "")
  const nothing = exact("0")
  if (!units) return { comparator: "", reported: number ?? nothing, value: number ?? nothing }
  const convert = units[unit]
  if (!convert) throw new RowRejected("unknown unit")
  if (!number) throw new RowRejected("value is no number")
  const value = convert(number)
  if (!isPlausible(test, value)) throw new RowRejected("implausible")
  return { comparator: comparatorOf(parts?.[1] ?? ""), reported: number, value }
}

function comparatorOf(sign: string): Lab["comparator"] {
  if (sign === "<" || sign === ">") return sign
  if (sign === "<=" || sign === "\u2264") return "<="
  if (sign === ">=" || sign === "\u2265") return ">="
  return ""
}
