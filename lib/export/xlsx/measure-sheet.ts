import { groupTitle } from "../../figures/group-words"
import type { FigureMonth } from "../../figures/measure-figure"
import type { MonthReport, ReportedMeasure } from "../../figures/month-report"
import type { ReportedDivision, ReportedGroup } from "../../figures/reported-groups"
import { dayInFull } from "../../speech/format"
import { day, head, text, type XlsxCell } from "./cells"
import { countColumns } from "./count-columns"
import { rowsOf, tableSheet, type Column, type XlsxSheet } from "./sheet"

const columns: readonly Column<FigureMonth>[] = [
  { head: "As it stands at", width: 26, cell: ({ asOf }) => day(asOf) },
  ...countColumns,
]

/** One measure month by month, and by group as it stands at the end. */
export function measureSheet(report: MonthReport, { figure, divisions }: ReportedMeasure): XlsxSheet {
  const { name, question } = figure.measure
  const sheet = tableSheet(report, { name, title: `${name}. ${question}`, columns, rows: figure.months })
  if (divisions.length === 0) return sheet
  const beneath: XlsxCell[][] = [
    [],
    [
      text(
        `By group at ${dayInFull(report.asOf)}. Groups of few people, and one more beside them, are not shown.`,
      ),
    ],
    ...divisions.flatMap(divisionRows),
  ]
  return { ...sheet, rows: [...sheet.rows, ...beneath] }
}

function divisionRows({ kind, groups }: ReportedDivision): XlsxCell[][] {
  return [
    [head(groupTitle(kind)), ...countColumns.map((column) => head(column.head))],
    ...groups.map(groupRow),
  ]
}

function groupRow({ name, shown }: ReportedGroup): XlsxCell[] {
  if (shown === null) return [text(name), text("not shown")]
  return [text(name), ...rowsOf(countColumns, [shown]).flat()]
}
