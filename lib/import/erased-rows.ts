import type { LedgerValue } from "../domain/ledgers"
import { ledgers } from "../domain/ledgers"
import type { Cells } from "./cells"
import type { Problem } from "./problems"
import type { CsvRecord } from "./records"

export type IsErased = (patientId: string) => boolean

/** Why a row of somebody whose record was erased is not taken in; it says nothing of what stood there. */
export const erasedProblem: Problem = {
  column: "patient_id",
  value: null,
  code: "erased",
  message: "is the number of a record that was erased; no row of it is taken in, and its text is not kept",
}

const mergedInto = ledgers.patients.columns.findIndex(([name]) => name === "merged_into")

/** The values of a patient's row without a link to somebody who was erased. */
export function withoutErasedLink(
  values: readonly LedgerValue[],
  { cells, isErased }: { cells: Cells; isErased: IsErased },
): readonly LedgerValue[] {
  const linked = cells.raw("merged_into")
  return linked !== "" && isErased(linked) ? values.with(mergedInto, null) : values
}

/** Whether a record names somebody who was erased anywhere, also one whose fields cannot be read: its text is not kept then. */
export function namesErased(record: CsvRecord, isErased: IsErased): boolean {
  const parts = [...record.fields, ...record.raw.split(/[,;"\s]+/)]
  return parts.some((part) => part.trim() !== "" && isErased(part.trim()))
}
