import { baselineWords, type Baseline } from "../../figures/baseline"
import type { InMonthFigure } from "../../figures/in-month-figure"
import type { MeasureFigure } from "../../figures/measure-figure"
import type { ReportedMeasure } from "../../figures/month-report"
import { signalSentence } from "../../figures/signal-words"
import { count, listed, numbered } from "../../speech/format"
import { changeLines } from "./change-lines"
import { drawChart, heightOfChart, type Chart } from "./chart"
import { heightOfLines, setLines, type Line } from "./lines"
import { inMonthChart, rollingChart } from "./measure-charts"
import { ink, paper, type Sheet } from "./sheet"

const chartWidth = 282
const besideX = paper.left + chartWidth + 14
const beside = { x: besideX, width: paper.right - besideX }
const rollingHeight = 62
const inMonthHeight = 54

/** The charts of a measure one under the other, and beside them why it changed and what is judged. */
export type Course = { rolling: Chart; inMonth: Chart | null; change: Line[]; signal: Line[] }

export function courseOf({ figure, parts, notes, wouldBe }: ReportedMeasure): Course {
  const { inMonth, measure } = figure
  const wanting = partsSentence(figure, parts)
  const chart = inMonth ? inMonthChart(inMonth, notes) : null
  return {
    rolling: rollingChart(figure, notes),
    inMonth: chart,
    change: [
      ...changeLines(figure, beside),
      ...(wanting === null ? [] : [besideLine(wanting)]),
      ...(wouldBe === null ? [] : [besideLine(`${wouldBe}.`)]),
    ],
    signal: inMonth
      ? [
          besideLine(signalSentence(inMonth, measure.direction)),
          ...(isSetByHand(inMonth.baseline)
            ? [softLine(baselineWords(inMonth.baseline, asOfsOf(inMonth)))]
            : []),
        ]
      : [softLine("No single fact decides the measure, so no signals are judged.")],
  }
}

export function heightOfCourse(sheet: Sheet, course: Course): number {
  const chartsEnd = heightOfChart(rollingHeight) + (course.inMonth ? heightOfChart(inMonthHeight) : 0)
  return Math.max(chartsEnd, signalTop(sheet, course) + heightOfLines(sheet, course.signal)) + 4
}

export function setCourse(sheet: Sheet, course: Course): void {
  const top = sheet.y
  const end = top + heightOfCourse(sheet, course)
  const place = { x: paper.left, width: chartWidth }
  setLines(sheet, course.change, top)
  drawChart(sheet, course.rolling, { ...place, height: rollingHeight })
  if (course.inMonth) drawChart(sheet, course.inMonth, { ...place, height: inMonthHeight })
  setLines(sheet, course.signal, top + signalTop(sheet, course))
  sheet.y = end
}

/** What is judged stands beside the chart it is judged on, or further down where the words before it are many. */
function signalTop(sheet: Sheet, { change, inMonth }: Course): number {
  const changeEnd = heightOfLines(sheet, change)
  return inMonth ? Math.max(changeEnd, heightOfChart(rollingHeight)) : changeEnd
}

/** The first year, which is the baseline where nobody chose another, is told once for all charts. */
function isSetByHand({ chosen, passed }: Baseline): boolean {
  return chosen !== null || passed !== null
}

function asOfsOf({ points }: InMonthFigure): string[] {
  return points.map((point) => point.asOf)
}

function besideLine(text: string): Line {
  return { cells: [{ ...beside, text, size: 9, gap: 0.5 }], after: 3 }
}

function softLine(text: string): Line {
  return { cells: [{ ...beside, text, size: 8, gap: 0.5, colour: ink.soft }], after: 3 }
}

function partsSentence(figure: MeasureFigure, parts: ReportedMeasure["parts"]): string | null {
  if (parts.length === 0) return null
  const total = figure.measure.direction === "up" ? figure.counts.notMet : figure.counts.met
  return `Of the ${count(total)}: ${listed(parts.map((part) => numbered(part.people, part.words)))}.`
}
