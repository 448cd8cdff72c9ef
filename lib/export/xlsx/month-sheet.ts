import { changeTitle } from "../../figures/change-title"
import { keptRateWords } from "../../figures/kept-rate-words"
import type { DietSeries } from "../../figures/diet-figure"
import { firstWords } from "../../figures/first-lines"
import { fewestForRate, type MeasureFigure } from "../../figures/measure-figure"
import type { MonthReport } from "../../figures/month-report"
import { signalSentence } from "../../figures/signal-words"
import { dietSodium } from "../../measures/diet-sodium"
import { sentenceCase } from "../../speech/format"
import { head, pointsCell, text, whole, type XlsxCell } from "./cells"
import { countColumns, isOfEnough } from "./count-columns"
import { rowsOf, tableSheet, type Column, type XlsxSheet } from "./sheet"

type Line = MeasureFigure & { theme: string; wouldBe: string | null }

const columns: readonly Column<Line>[] = [
  { head: "Measure", width: 38, cell: ({ measure }) => text(measure.name) },
  { head: "Theme", width: 22, cell: ({ theme }) => text(theme) },
  {
    head: "Better is",
    width: 9,
    cell: ({ measure }) => text(measure.direction === "up" ? "more" : "less"),
  },
  ...countColumns,
  { head: "Points since the month before", width: 14, cell: (line) => pointsCell(differenceOf(line)) },
  { head: "Gained", width: 9, cell: ({ change }) => whole(change?.counts.gained ?? null) },
  { head: "Lost", width: 9, cell: ({ change }) => whole(change?.counts.lost ?? null) },
  { head: "Joined", width: 9, cell: ({ change }) => whole(change?.counts.joined ?? null) },
  { head: "Left", width: 9, cell: ({ change }) => whole(change?.counts.left ?? null) },
  { head: "In words", width: 44, cell: (line) => text(changeOf(line)) },
  { head: "What the facts of each month signal", width: 60, cell: (line) => text(signalOf(line)) },
  { head: "By what is known today", width: 34, cell: ({ wouldBe }) => text(wouldBe) },
]

const dietColumns: readonly Column<DietSeries>[] = [
  { head: dietSodium.name, width: 0, cell: ({ name }) => text(sentenceCase(name)) },
  { head: "People with a record", width: 0, cell: ({ now }) => whole(now.n) },
  { head: "Mean, mg a day", width: 0, cell: ({ now }) => whole(now.meanMg) },
  { head: "95% interval from", width: 0, cell: ({ now }) => whole(now.interval?.low ?? null) },
  { head: "95% interval to", width: 0, cell: ({ now }) => whole(now.interval?.high ?? null) },
  { head: "People asked before", width: 0, cell: ({ paired }) => whole(paired?.n ?? null) },
  { head: "Change in them, mg", width: 0, cell: ({ paired }) => whole(paired?.changeMg ?? null) },
  { head: "95% interval from", width: 0, cell: ({ paired }) => whole(paired?.interval?.low ?? null) },
  { head: "95% interval to", width: 0, cell: ({ paired }) => whole(paired?.interval?.high ?? null) },
]

/** Every measure of the month on a line of its own, and the mean sodium of each way of asking beneath. */
export function monthSheet(report: MonthReport): XlsxSheet {
  const lines = report.themes.flatMap((theme) =>
    theme.measures.map(({ figure, wouldBe }) => ({ ...figure, wouldBe, theme: theme.title })),
  )
  const diet = report.themes.flatMap((theme) => theme.diet?.series ?? [])
  const sheet = tableSheet(report, { name: "Month", title: "Month", columns, rows: lines })
  const beneath: XlsxCell[][] = [
    [],
    dietColumns.map((column) => head(column.head)),
    ...rowsOf(dietColumns, diet),
    ...report.themes.flatMap((theme): XlsxCell[][] =>
      theme.diet
        ? [[text("Signals of the first series"), text(signalSentence(theme.diet.signals, "down"))]]
        : [],
    ),
    [],
    [head("First this month")],
    ...report.first.lines.map(({ parts }): XlsxCell[] => [text(firstWords(parts))]),
    [],
    [
      text(
        `Where fewer than ${fewestForRate} people are counted, the counts stand in place of a percentage.`,
      ),
    ],
    [text("The workbook supports licensed clinicians, who decide; local policy applies.")],
  ]
  return { ...sheet, rows: [...sheet.rows, ...beneath] }
}

function signalOf({ inMonth, measure }: Line): string {
  return inMonth
    ? signalSentence(inMonth, measure.direction)
    : "No single fact decides the measure, so no signals are judged."
}

function differenceOf({ rate, earlier }: Line): number | null {
  if (!earlier || rate.rate === null || earlier.rate.rate === null) return null
  return isOfEnough(rate) && isOfEnough(earlier.rate) ? rate.rate - earlier.rate.rate : null
}

function changeOf(figure: MeasureFigure): string {
  const kept = keptRateWords(figure)
  return kept === null ? changeTitle(figure) : `${changeTitle(figure)}. ${kept}`
}
