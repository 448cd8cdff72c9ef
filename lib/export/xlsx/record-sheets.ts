import type { MeasureAction } from "../../domain/measure-actions"
import { plainToday } from "../../domain/plain-date"
import type { MonthReport, ReportedRecord } from "../../figures/month-report"
import { dietSodium } from "../../measures/diet-sodium"
import { month } from "../../speech/format"
import { day, prose, text, whole } from "./cells"
import { tableSheet, type Column, type XlsxSheet } from "./sheet"

type Logged = { measure: string; action: MeasureAction }
type Noted = { measure: string; note: ReportedRecord["notes"][number] }

const states = { open: "Open", done: "Done", dropped: "Dropped" } as const

/** Every decision and action of the meetings up to the month, measure by measure, the open first. */
export function decisionsSheet(report: MonthReport): XlsxSheet {
  const { timeZone } = report
  const columns: readonly Column<Logged>[] = [
    { head: "Measure", width: 34, cell: ({ measure }) => prose(measure) },
    {
      head: "Kind",
      width: 10,
      cell: ({ action }) => prose(action.kind === "decision" ? "Decision" : "Action"),
    },
    { head: "What", width: 60, cell: ({ action }) => prose(action.text) },
    { head: "Who", width: 22, cell: ({ action }) => prose(action.owner) },
    { head: "Due", width: 13, cell: ({ action }) => day(action.dueOn) },
    { head: "State", width: 10, cell: ({ action }) => prose(states[action.state]) },
    { head: "Of the month", width: 16, cell: ({ action }) => prose(month(action.month)) },
    { head: "Written by", width: 20, cell: ({ action }) => prose(action.madeBy) },
    {
      head: "Closed on",
      width: 13,
      cell: ({ action }) => day(action.closedAt === null ? null : plainToday(action.closedAt, timeZone)),
    },
    { head: "Closed by", width: 20, cell: ({ action }) => prose(action.closedBy) },
    { head: "Note", width: 50, cell: ({ action }) => prose(action.outcome) },
  ]
  const rows = recordsOf(report).flatMap(({ measure, actions }) =>
    actions.map((action) => ({ measure, action })),
  )
  return tableSheet(report, { name: "Decisions", title: "Decisions and actions", columns, rows })
}

const noteColumns: readonly Column<Noted>[] = [
  { head: "Measure", width: 34, cell: ({ measure }) => prose(measure) },
  { head: "Number on the chart", width: 12, cell: ({ note }) => whole(note.number) },
  { head: "Day", width: 13, cell: ({ note }) => day(note.note.onDay) },
  { head: "Note", width: 60, cell: ({ note }) => prose(note.note.text) },
  {
    head: "Stands on",
    width: 16,
    cell: ({ note }) => text(note.note.measureId === null ? "all measures" : "this measure"),
  },
  { head: "Written by", width: 20, cell: ({ note }) => prose(note.note.madeBy) },
]

/** The notes on the charts, measure by measure. */
export function notesSheet(report: MonthReport): XlsxSheet {
  const rows = recordsOf(report).flatMap(({ measure, notes }) => notes.map((note) => ({ measure, note })))
  return tableSheet(report, { name: "Notes", title: "Notes on the charts", columns: noteColumns, rows })
}

function recordsOf(report: MonthReport): (ReportedRecord & { measure: string })[] {
  return report.themes.flatMap((theme) => [
    ...(theme.diet ? [{ ...theme.diet, measure: dietSodium.name }] : []),
    ...theme.measures.map((one) => ({ ...one, measure: one.figure.measure.name })),
  ])
}
