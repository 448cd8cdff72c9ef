import { dayOf, timeOf } from "./calendar"
import type { Row, Rows } from "./extract-columns"
import type { ExtractWriter } from "./extract-writer"
import type { Random } from "./random"

/**
 * Writes one person's rows in order of time with the dirt of real extracts: lines sent twice, lines that arrive
 * late, results corrected afterwards, readings typed wrongly and taken back.
 */
export function writeRows(options: { rows: Rows; writer: ExtractWriter; random: Random }): void {
  const { rows, writer, random } = options
  rows.patients.forEach((row) => writer.write("patients", row))
  byText(rows.visits, (row) => row.started_on).forEach((row) => writer.write("visits", row))
  byText(rows.appointments, (row) => row.starts_at).forEach((row) => writer.write("appointments", row))
  byText(rows.readings, (row) => row.taken_at).forEach((row) => writeReading(row, options))
  byText(rows.labs, (row) => row.collected_at).forEach((row) => writeLab(row, options))
  byText(rows.medications, (row) => row.started_on).forEach((row) => writeMedication(row, options))
  rows.problems.forEach((row) => writer.write("problems", row))
  rows.allergies.forEach((row) => writer.write("allergies", row))
  byText(rows.diet, (row) => row.recorded_on).forEach((row) => {
    if (random.chance(0.006)) writer.writeLate("diet", row)
    else writer.write("diet", row)
  })
}

type Sink = { writer: ExtractWriter; random: Random }

function writeReading(row: Row<"readings">, { writer, random }: Sink): void {
  const draw = random.unit()
  if (draw < 0.003) return writer.writeLate("readings", row)
  writer.write("readings", row)
  const hasId = row.reading_id !== undefined && row.reading_id !== ""
  if (draw < 0.006) writer.write("readings", row)
  else if (hasId && draw < 0.008) writeMistaken(row, { writer, random })
}

/** The figures of two people swapped: entered, then taken back under the same id. */
function writeMistaken(row: Row<"readings">, { writer, random }: Sink): void {
  const reading_id = `${row.reading_id}X`
  const wrong = { ...row, reading_id, systolic: random.whole(150, 195), diastolic: random.whole(84, 110) }
  writer.write("readings", wrong)
  writer.write("readings", {
    reading_id,
    ...(row.patient_id === undefined ? {} : { patient_id: row.patient_id }),
    retracted: true,
  })
}

function writeLab(row: Row<"labs">, { writer, random }: Sink): void {
  const draw = random.unit()
  if (draw < 0.004) return writer.writeLate("labs", row)
  const hasId = row.lab_id !== undefined && row.lab_id !== ""
  if (hasId && draw < 0.0065 && typeof row.value === "string" && /^\d+\.\d+$/.test(row.value)) {
    writer.write("labs", { ...row, value: (Number(row.value) * 1.1).toFixed(2) })
    return writer.write("labs", { ...row, status: "corrected" })
  }
  writer.write("labs", row)
  if (hasId && draw < 0.01) writer.write("labs", row)
}

function writeMedication(row: Row<"medications">, { writer, random }: Sink): void {
  const draw = random.unit()
  if (draw < 0.003) return writer.writeLate("medications", row)
  writer.write("medications", row)
  if (draw < 0.007) writer.write("medications", row)
  else if (draw < 0.009) writeOrderedTwice(row, writer)
}

/** Ordered a second time by mistake and taken back. */
function writeOrderedTwice(row: Row<"medications">, writer: ExtractWriter): void {
  const order_id = `${row.order_id}X`
  writer.write("medications", { ...row, order_id })
  writer.write("medications", { ...row, order_id, retracted: "yes" })
}

function byText<T>(rows: readonly T[], keyOf: (row: T) => string | number | boolean | undefined): T[] {
  const keyed = rows.map((row) => ({ row, key: String(keyOf(row) ?? "") }))
  keyed.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
  return keyed.map((entry) => entry.row)
}

/** The second record some people have by mistake, and which of their facts stand in it. */
export function splitOffDuplicate(options: { rows: Rows; duplicateId: string; random: Random }): Rows {
  const { rows, duplicateId, random } = options
  const owner = rows.patients[0]
  if (!owner?.patient_id) return rows
  const moved = { patient_id: duplicateId }
  const duplicate: Row<"patients"> = {
    ...owner,
    ...moved,
    merged_into: owner.patient_id,
    email: "",
    left_on: "",
    left_reason: "",
    died_on: "",
  }
  const readings = rows.readings.map((row, index) => (index % 7 === 3 ? { ...row, ...moved } : row))
  const labs = rows.labs.map((row, index) => (index % 9 === 4 ? { ...row, ...moved } : row))
  // One reading stands in both records: facts alike but for the patient count once.
  const copied = rows.readings.at(-1)
  const copy =
    copied && random.chance(0.7)
      ? [{ ...copied, ...moved, reading_id: copied.reading_id ? `${copied.reading_id}D` : "" }]
      : []
  return { ...rows, patients: [...rows.patients, duplicate], readings: [...readings, ...copy], labs }
}

/** A made-up patient the clinic's own trainers use. */
export function testPatientRows(through: string): Rows {
  const day = dayOf(through) - 40
  const patient_id = "LK-999999"
  return {
    staff: [],
    patients: [
      {
        patient_id,
        given_name: "Zz",
        family_name: "Testpatient",
        birth_date: "1950-01-01",
        sex: "female",
        registered_on: "2020-01-01",
        is_test: "true",
        site: "Northgate",
      },
    ],
    visits: [
      { visit_id: "V999999-1", patient_id, started_on: through, kind: "office", clinician_id: "S-01" },
    ],
    appointments: [],
    readings: [
      {
        reading_id: "R999999-1",
        patient_id,
        taken_at: timeOf(day, 600),
        systolic: 199,
        diastolic: 99,
        setting: "office",
      },
    ],
    labs: [
      {
        lab_id: "L999999-1",
        patient_id,
        collected_at: timeOf(day, 600),
        test: "potassium",
        value: "7.7",
        unit: "mmol/L",
      },
    ],
    medications: [],
    problems: [],
    allergies: [],
    diet: [],
  }
}
