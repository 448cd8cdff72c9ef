import type { FactKind } from "../../lib/domain/fact-kinds"
import { ledgers, type LedgerValue } from "../../lib/domain/ledgers"
import { dayFromText } from "../../lib/import/calendar"
import { createRowChecker, type CheckedRow } from "../../lib/import/check-row"
import { clinicClock } from "../../lib/import/clinic-clock"
import { fileKinds } from "../../lib/import/file-kinds"
import { readHeader } from "../../lib/import/header"
import { readLabCodes } from "../../lib/import/lab-codes"

/** The day of import of these checks; the clinic is in Chicago. */
export const importDay = "2026-03-15"

const labCodes = readLabCodes()
const births = new Map([
  ["P1", day("1960-05-01")],
  ["P2", day("1990-01-31")],
])

/** Checks one row given by column, as it would stand in a file with just these columns and the required ones. */
export function checkRow(kind: FactKind, row: Record<string, string>): CheckedRow {
  const fileKind = fileKinds[kind]
  const columns = [...new Set([...fileKind.required, ...Object.keys(row)])]
  const header = readHeader({ line: 1, raw: "", fields: columns, problem: null }, fileKind)
  if ("message" in header) throw new RangeError(header.message)
  const check = createRowChecker(header, fileKind, {
    importDay: day(importDay),
    clock: clinicClock("America/Chicago"),
    labCodes,
    births,
    staffIds: new Set(["S1"]),
  })
  const fields = columns.map((column) => row[column] ?? "")
  return check({ line: 2, raw: fields.join(","), fields, problem: null })
}

/** The values of a good row by ledger column. */
export function goodValues(kind: FactKind, row: Record<string, string>): Record<string, LedgerValue> {
  const checked = checkRow(kind, row)
  if (checked.verdict !== "good") throw new RangeError(`the row is ${checked.verdict}: ${describe(checked)}`)
  return Object.fromEntries(
    ledgers[kind].columns.map(([name], index) => [name, checked.values[index] ?? null]),
  )
}

/** Column and code of what is wrong with a row, "good" or "retracted". */
export function verdictOn(kind: FactKind, row: Record<string, string>): string {
  return describe(checkRow(kind, row))
}

function describe(checked: CheckedRow): string {
  if (checked.verdict !== "rejected") return checked.verdict
  return `${checked.problem.column} ${checked.problem.code}`
}

export function day(text: string): number {
  const found = dayFromText(text)
  if (found === null) throw new RangeError(`${text} is no day`)
  return found
}
