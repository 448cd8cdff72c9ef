import { groupTitle } from "../../figures/group-words"
import type { FigureMonth, MeasureFigure } from "../../figures/measure-figure"
import type { MonthReport, ReportedMeasure } from "../../figures/month-report"
import type { ReportedDivision, ReportedGroup } from "../../figures/reported-groups"
import { judgedWords } from "../../figures/signal-words"
import type { SignalPoint } from "../../figures/signals"
import { dayInFull } from "../../speech/format"
import type { Rate } from "../../statistics/rate"
import { day, head, share, text, whole, type XlsxCell } from "./cells"
import { countColumns, isOfEnough } from "./count-columns"
import { rowsOf, tableSheet, type Column, type XlsxSheet } from "./sheet"

type Row = FigureMonth & { ofMonth: { rate: Rate; point: SignalPoint } | null }

const columns: readonly Column<Row>[] = [
  { head: "As it stands at", width: 26, cell: ({ asOf }) => day(asOf) },
  ...countColumns,
]

/** The series on which signals are judged, beside the one of the counts. */
const inMonthColumns: readonly Column<Row>[] = [
  {
    head: "Of the month only: counted",
    width: 12,
    cell: ({ ofMonth }) => whole(ofMonth?.rate.total ?? null),
  },
  { head: "Of the month only: met", width: 12, cell: ({ ofMonth }) => whole(ofMonth?.rate.met ?? null) },
  {
    head: "Of the month only: rate",
    width: 12,
    cell: ({ ofMonth }) => share(ofMonth && isOfEnough(ofMonth.rate) ? ofMonth.rate.rate : null),
  },
  { head: "Limits from", width: 11, cell: ({ ofMonth }) => share(ofMonth?.point.low ?? null) },
  { head: "Limits to", width: 11, cell: ({ ofMonth }) => share(ofMonth?.point.high ?? null) },
  {
    head: "Judged by the limits",
    width: 16,
    cell: ({ ofMonth }) => text(ofMonth ? judgedWords(ofMonth.point) : null),
  },
]

/** One measure month by month, and by group as it stands at the end. */
export function measureSheet(report: MonthReport, { figure, divisions }: ReportedMeasure): XlsxSheet {
  const { name, question } = figure.measure
  const rows = figure.months.map((month, place) => ({ ...month, ofMonth: ofMonthAt(figure, place) }))
  const sheet = tableSheet(report, {
    ...{ name, title: `${name}. ${question}`, rows },
    columns: figure.inMonth ? [...columns, ...inMonthColumns] : columns,
  })
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

function ofMonthAt({ inMonth }: MeasureFigure, place: number): Row["ofMonth"] {
  const [rate, point] = [inMonth?.rates[place], inMonth?.points[place]]
  return rate && point ? { rate, point } : null
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
