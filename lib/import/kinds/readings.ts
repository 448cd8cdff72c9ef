import type { Cells } from "../cells"
import { compareDecimals, type Decimal } from "../decimals"
import type { FileKind } from "../file-kind"

const settings = ["office", "home", "ambulatory", "emergency", "inpatient", "dialysis"] as const

export const readings: FileKind = {
  kind: "readings",
  required: ["patient_id", "taken_at", "systolic", "diastolic", "setting"],
  optional: ["pulse", "reading_id"],
  read(cells) {
    const patientId = cells.need.id("patient_id")
    const readingId = cells.id("reading_id")
    if (readingId !== null && cells.identify({ id: readingId })) return null
    const taken = cells.need.eventTime("taken_at")
    const systolic = cells.need.number("systolic")
    const diastolic = cells.need.number("diastolic")
    const setting = cells.need.word("setting", settings)
    const parts = [patientId, taken.instant, setting, systolic, diastolic]
    if (readingId === null && cells.identify({ parts })) return null
    rejectOutside(cells, "systolic", systolic, ["50", "300"])
    rejectOutside(cells, "diastolic", diastolic, ["20", "200"])
    if (compareDecimals(systolic, diastolic) <= 0)
      cells.reject("systolic", "implausible", "must be above the diastolic pressure")
    const pulse = cells.number("pulse")
    return [patientId, readingId, taken.instant, taken.isDateOnly, systolic, diastolic, setting, pulse]
  },
}

function rejectOutside(cells: Cells, column: string, mmHg: Decimal, [low, high]: [Decimal, Decimal]): void {
  if (compareDecimals(mmHg, low) < 0 || compareDecimals(mmHg, high) > 0)
    cells.reject(column, "implausible", `must be from ${low} to ${high} mmHg`)
}
