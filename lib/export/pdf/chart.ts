import { monthShort } from "../../speech/format"
import { frameOf, type Frame } from "./chart-frame"
import { paintBand, paintLevels, paintNotes, paintOutside, paintSeries } from "./chart-marks"
import { draw, ink, sayAt, type Sheet } from "./sheet"

export type ChartPoint = { asOf: string; value: number | null; low: number | null; high: number | null }

export type Chart = {
  /** Which series it shows. */
  title: string
  points: readonly ChartPoint[]
  /** The finding in words, for whoever does not see it. */
  alt: string
  endLabel: string
  /** From the place of its first month to the end. */
  baseline: { value: number; label: string; from: number } | null
  limits: readonly { value: number; label: string }[]
  /** Between what ends each month lies when chance alone is at work; none where nothing is judged. */
  bounds: readonly { low: number | null; high: number | null; outside: "above" | "below" | null }[]
  /** Dated notes by their number, and how far along the months they stand, 0 to 1. */
  notes: readonly { number: number; along: number }[]
  /** The least the scale spans, and where it ends at the latest. */
  least: number
  ceiling: number | null
  tick: (value: number) => string
  /** Columns stand on 0; dots where each month has its own people. */
  drawn: "line" | "columns" | "dots"
}

type Place = { x: number; width: number; height: number }

const labelWidth = 66
const tickWidth = 28
const titleHeight = 22
const footHeight = 16

/** How high a chart stands with its title and the months beneath it. */
export function heightOfChart(height: number): number {
  return titleHeight + height + footHeight
}

/** A series over the months with what it is held against, each part labelled; vectors all of it. */
export function drawChart(sheet: Sheet, chart: Chart, place: Place): void {
  const top = sheet.y + titleHeight
  sayAt(sheet, chart.title, sheet.y, {
    ...{ x: place.x, width: place.width, font: "sansBold", size: 8, gap: 0, colour: ink.soft },
  })
  const frame = frameOf(chart, {
    ...{ left: place.x + tickWidth, right: place.x + place.width - labelWidth },
    ...{ top, height: place.height },
  })
  draw(sheet, chart.alt, (doc) => {
    paintBand(doc, chart, frame)
    paintNotes(doc, chart, frame)
    paintLevels(doc, chart, frame)
    paintSeries(doc, chart, frame)
    paintOutside(doc, chart, frame)
  })
  labelLevels(sheet, chart, frame)
  labelMarks(sheet, chart, frame)
  labelMonths(sheet, chart, frame)
  for (const value of [frame.scale.low, frame.scale.high])
    sayAt(sheet, chart.tick(value), frame.y(value) - 5, {
      ...{ x: place.x, width: tickWidth - 5, align: "right", size: 7.5, colour: ink.soft, gap: 0 },
    })
  sheet.y = top + place.height + footHeight
}

/** The end's label, then those of limits and baseline where they stand clear of each other. */
function labelLevels(sheet: Sheet, chart: Chart, { right, y: yOf }: Frame): void {
  const x = right + 6
  const end = chart.points.at(-1)?.value ?? null
  const taken: number[] = []
  if (end !== null) {
    taken.push(yOf(end))
    sayAt(sheet, chart.endLabel, yOf(end) - 6.5, {
      ...{ x, width: labelWidth - 6, font: "sansBold", size: 10, colour: ink.accent, gap: 0 },
    })
  }
  for (const level of [...chart.limits, ...(chart.baseline ? [chart.baseline] : [])]) {
    const y = yOf(level.value)
    if (taken.some((one) => Math.abs(one - y) < 10)) continue
    taken.push(y)
    sayAt(sheet, level.label, y - 5, { x, width: labelWidth - 4, size: 7.5, colour: ink.soft, gap: 0 })
  }
}

/** The number of each note over its line; and of months outside that lie close together, the first in words. */
function labelMarks(sheet: Sheet, { notes, bounds, points }: Chart, { top, along, x, y }: Frame): void {
  for (const note of notes)
    sayAt(sheet, String(note.number), top - 11, {
      ...{ x: along(note.along) - 8, width: 16, size: 7, colour: ink.ink, gap: 0, align: "center" },
    })
  bounds.forEach(({ outside }, at) => {
    const value = points[at]?.value ?? null
    const near = bounds.slice(Math.max(0, at - 4), at)
    if (outside === null || value === null || near.some((one) => one.outside === outside)) return
    sayAt(sheet, outside, y(value) + (outside === "above" ? -12.5 : 4), {
      ...{ x: x(at) - 20, width: 40, size: 6.5, colour: ink.ink, gap: 0, align: "center" },
    })
  })
}

/** The first and the last month under the ends. */
function labelMonths(sheet: Sheet, { points }: Chart, { left, right, top, height }: Frame): void {
  const foot = top + height + 4
  const small = { size: 7.5, colour: ink.soft, gap: 0 } as const
  const [first, last] = [points[0], points.at(-1)]
  if (first && points.length > 1) sayAt(sheet, monthShort(first.asOf), foot, { ...small, x: left, width: 80 })
  if (last) sayAt(sheet, monthShort(last.asOf), foot, { ...small, x: right - 80, width: 82, align: "right" })
}
