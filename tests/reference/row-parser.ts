import { RowRejected, required, type Cells } from "./cells"
import { compare, exact, type Exact } from "./exact"

/** How the rows of one file are read. `fact` and `key` throw RowRejected for a row that cannot be kept. */
export type RowParser<Fact> = {
  file: string
  columns: readonly string[]
  /** The natural key; all that a retracted row needs. Numbered rows of one key are facts of their own. */
  key: (cells: Cells) => { key: string; isNumbered: boolean }
  /** `events` are the days that must not lie before the patient's birth. */
  fact: (cells: Cells) => { fact: Fact; events: (number | null)[] }
}

type KeyPart = string | number | Exact | boolean | null

export function keyOf(parts: KeyPart[], isNumbered = false): { key: string; isNumbered: boolean } {
  return { key: contentOf(parts), isNumbered }
}

/** One text of all parts, with numbers by value: 128 and 128.0 are the same. */
export function contentOf(parts: KeyPart[]): string {
  return parts
    .map((part) => (part !== null && typeof part === "object" ? `${part.over}/${part.under}` : (part ?? "")))
    .join("\u0000")
}

export function patientOf(cells: Cells): string {
  return required(cells.text("patient_id"), "patient_id")
}

export function rejectOutside(value: Exact, low: string, high: string): void {
  if (compare(value, exact(low)) < 0 || compare(value, exact(high)) > 0) throw new RowRejected("implausible")
}
