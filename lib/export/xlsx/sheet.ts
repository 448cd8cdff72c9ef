import { reportStanding } from "../../figures/report-standing"
import type { MonthReport } from "../../figures/month-report"
import { month } from "../../speech/format"
import { head, text, type XlsxCell } from "./cells"

/** One column of a table: its head, how wide it is in letters, and what it says of a row. */
export type Column<Row> = { head: string; width: number; cell: (row: Row) => XlsxCell }

/** A sheet as it is written: its rows stand still above `frozen`. */
export type XlsxSheet = { name: string; rows: XlsxCell[][]; widths: number[]; frozen: number }

/** A table beneath the lines that say what it is, of which clinic and day; they and the heads stand still. */
export function tableSheet<Row>(
  report: MonthReport,
  table: { name: string; title: string; columns: readonly Column<Row>[]; rows: readonly Row[] },
): XlsxSheet {
  const above = [
    [head(`${table.title}. ${report.clinicName}, ${month(report.month)}`)].map(unwrapped),
    [text([...reportStanding(report), ...report.closing].join(" "))],
  ]
  return {
    name: table.name,
    rows: [...above, table.columns.map((column) => head(column.head)), ...rowsOf(table.columns, table.rows)],
    widths: table.columns.map((column) => column.width),
    frozen: above.length + 1,
  }
}

export function rowsOf<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): XlsxCell[][] {
  return rows.map((row) => columns.map((column) => column.cell(row)))
}

/** A title runs on over the empty cells beside it. */
function unwrapped(cell: XlsxCell): XlsxCell {
  return cell && { ...cell, wrap: false }
}
