import type { LedgerValue } from "../domain/ledgers"
import type { Day } from "./calendar"
import { createCells, type FactKey, type Cells } from "./cells"
import type { ClinicClock } from "./clinic-clock"
import { erasedProblem, withoutErasedLink, type IsErased } from "./erased-rows"
import type { FileKind, ReadContext, Remarks } from "./file-kind"
import type { Header } from "./header"
import type { LabCodes } from "./lab-codes"
import type { Problem } from "./problems"
import type { CsvRecord } from "./records"

/** What is known of the clinic when a row is checked. */
export type CheckContext = {
  importDay: Day
  clock: ClinicClock
  labCodes: LabCodes
  /** Birth days of the known patients; a fact of anyone else is held. Not yet known while staff and patients are read. */
  births: ReadonlyMap<string, Day> | null
  staffIds: ReadonlySet<string> | null
  /** The numbers of people whose record was erased; absent while there are none. */
  isErased?: IsErased | null
}

export type CheckedRow =
  | { verdict: "rejected"; problem: Problem; key: FactKey | null }
  | { verdict: "retracted"; key: FactKey }
  | {
      verdict: "good"
      key: FactKey
      values: readonly LedgerValue[]
      isHeld: boolean
      isClinicianUnknown: boolean
      remarks: Readonly<Remarks>
    }

/** Checks the records of one file, one after another; nothing of a record is kept for the next. */
export function createRowChecker(
  header: Header,
  fileKind: FileKind,
  context: CheckContext,
): (record: CsvRecord) => CheckedRow {
  const cells = createCells({ indexByColumn: header.indexByColumn, clock: context.clock })
  const remarks: Remarks = { unlistedLoinc: null, isUnitOdd: false, isTestPatient: false }
  const readContext: ReadContext = { importDay: context.importDay, labCodes: context.labCodes, remarks }
  const namesClinician = fileKind.optional.includes("clinician_id")
  const isErased = fileKind.kind === "staff" ? null : context.isErased
  const isOfPatient = fileKind.kind !== "staff" && fileKind.kind !== "patients"

  return (record) => {
    const unreadable = recordProblem(record, header.columnCount)
    if (unreadable) return { verdict: "rejected", problem: unreadable, key: null }
    remarks.unlistedLoinc = null
    remarks.isUnitOdd = false
    remarks.isTestPatient = false
    cells.load(record.fields)
    if (isErased && isErased(cells.raw("patient_id")))
      return { verdict: "rejected", problem: erasedProblem, key: null }
    const values = fileKind.read(cells, readContext)
    if (!cells.row.isRetracted) cells.rejectEventsAfter(context.importDay + 1)
    const birth = isOfPatient ? context.births?.get(cells.raw("patient_id")) : undefined
    if (birth !== undefined && !cells.row.isRetracted) cells.rejectEventsBefore(birth)

    const { problem, key, isRetracted } = cells.row
    if (problem) return { verdict: "rejected", problem, key }
    if (key === null) throw new RangeError(`row of ${fileKind.kind} has neither a key nor a problem`)
    if (isRetracted) return { verdict: "retracted", key }
    if (values === null) throw new RangeError(`good row of ${fileKind.kind} has no values`)
    return {
      verdict: "good",
      key,
      values:
        isErased && fileKind.kind === "patients" ? withoutErasedLink(values, { cells, isErased }) : values,
      isHeld: isOfPatient && birth === undefined,
      isClinicianUnknown: namesClinician && isClinicianUnknown(cells, context.staffIds),
      remarks,
    }
  }
}

function recordProblem(record: CsvRecord, columnCount: number): Problem | null {
  const problem = { column: null, value: null }
  if (record.problem === "bad-quote")
    return {
      ...problem,
      code: "bad-quote",
      message: "a quotation mark is not closed, or not doubled inside its field",
    }
  if (record.problem === "too-long")
    return { ...problem, code: "too-long", message: "the line is longer than a million characters" }
  if (record.fields.length !== columnCount) {
    const message = `has ${record.fields.length} fields, the line of column names has ${columnCount}`
    return { ...problem, code: "field-count", message }
  }
  return null
}

function isClinicianUnknown(cells: Cells, staffIds: ReadonlySet<string> | null): boolean {
  const clinician = cells.raw("clinician_id")
  return clinician !== "" && !staffIds?.has(clinician)
}
