import { changeSentence } from "../../figures/change-words"
import { changeTitle } from "../../figures/change-title"
import { figureSentence, rateWords, stripOf } from "../../figures/figure-words"
import { fewestForRate, rateLabel, type MeasureFigure } from "../../figures/measure-figure"
import type { ReportedMeasure } from "../../figures/month-report"
import { count, listed, numbered, percent, sentenceCase } from "../../speech/format"
import { drawChart, type Chart } from "./chart"
import { contentWidth, heightOf, ink, keepRoom, markPlace, paper, say, sayAt, type Sheet } from "./sheet"
import { drawStrip } from "./strip"

const chartWidth = 300
const besideX = paper.left + chartWidth + 16
const besideWidth = paper.right - besideX

/** One measure of the month: sentence and rate, where people stand, the line, why it changed and what may be done. */
export function setMeasure(sheet: Sheet, { figure, parts }: ReportedMeasure): void {
  const sentence = figureSentence(figure)
  const isCounted = figure.rate.total > 0
  keepRoom(sheet, heightOf(sheet, sentence, { font: "serif", size: 13 }) + (isCounted ? 178 : 60))
  markPlace(sheet, figure.measure.id)
  say(sheet, figure.measure.name, { tag: "H3", font: "sansBold", size: 9, colour: ink.accent, after: 2 })
  say(sheet, sentence, { font: "serif", size: 13, gap: 2, after: 3 })
  say(sheet, joined(rateWords(figure)), { colour: ink.soft, after: 6 })
  if (isCounted) {
    drawStrip(sheet, stripOf(figure), { x: paper.left, width: contentWidth })
    setCourse(sheet, figure, parts)
  }
  sheet.y += 16
}

/** The line over the months and, beside it, the change in words. */
function setCourse(sheet: Sheet, figure: MeasureFigure, parts: ReportedMeasure["parts"]): void {
  const top = sheet.y
  let y = top + 6
  const beside = { x: besideX, width: besideWidth }
  y += sayAt(sheet, changeTitle(figure), y, { ...beside, font: "sansBold" }) + 2
  const change = changeSentence(figure)
  if (change !== null) y += sayAt(sheet, change, y, { ...beside, size: 9 }) + 3
  const wanting = partsSentence(figure, parts)
  if (wanting !== null) y += sayAt(sheet, wanting, y, { ...beside, size: 9 }) + 3
  drawChart(sheet, chartOf(figure), { x: paper.left, width: chartWidth, height: 62 })
  sheet.y = Math.max(sheet.y, y)
  say(sheet, figure.measure.action, { size: 8.5, colour: ink.soft, gap: 1 })
}

/** Where few people are counted, columns count them: a line between shares of a few would be all jags. */
function chartOf(figure: MeasureFigure): Chart {
  return figure.rate.total < fewestForRate ? countChart(figure) : rateChart(figure)
}

function countChart(figure: MeasureFigure): Chart {
  const { months, rate } = figure
  return {
    points: months.map((month) => ({
      ...{ asOf: month.asOf, value: month.rate.rate === null ? null : month.rate.met, low: null, high: null },
    })),
    drawn: "columns",
    alt: `${figure.measure.name}, people month by month: ${rateLabel(rate)} at the end. ${changeTitle(figure)}.`,
    endLabel: rateLabel(rate),
    ...{ baseline: null, limits: [], least: 4, ceiling: null, tick: count },
  }
}

function rateChart(figure: MeasureFigure): Chart {
  const { months, rate, baseline } = figure
  return {
    points: months.map((month) => ({
      asOf: month.asOf,
      value: month.rate.rate,
      low: month.rate.interval?.low ?? null,
      high: month.rate.interval?.high ?? null,
    })),
    alt: `${figure.measure.name}, month by month: ${rateLabel(rate)} at the end. ${changeTitle(figure)}.`,
    endLabel: rateLabel(rate),
    baseline: baseline === null ? null : { value: baseline, label: `first year ${percent(baseline)}` },
    limits: [],
    drawn: "line",
    least: 0.1,
    ceiling: 1,
    tick: (share) => `${count(share * 100)}%`,
  }
}

function partsSentence(figure: MeasureFigure, parts: ReportedMeasure["parts"]): string | null {
  if (parts.length === 0) return null
  const total = figure.measure.direction === "up" ? figure.counts.notMet : figure.counts.met
  return `Of the ${count(total)}: ${listed(parts.map((part) => numbered(part.people, part.words)))}.`
}

function joined(phrases: readonly string[]): string {
  return phrases.map((phrase) => sentenceCase(phrase.replace(/\.$/, ""))).join(" \u00b7 ")
}
