import { monthShort } from "../../speech/format"
import { draw, ink, sayAt, type Sheet } from "./sheet"

export type ChartPoint = { asOf: string; value: number | null; low: number | null; high: number | null }

export type Chart = {
  points: readonly ChartPoint[]
  /** The finding in words, for whoever does not see it. */
  alt: string
  endLabel: string
  baseline: { value: number; label: string } | null
  limits: readonly { value: number; label: string }[]
  /** The least the scale spans, and where it ends at the latest. */
  least: number
  ceiling: number | null
  tick: (value: number) => string
  /** Columns stand on 0. */
  drawn: "line" | "columns"
}

type Place = { x: number; width: number; height: number }

const labelWidth = 66
const tickWidth = 28

/** A series as a line with its interval as a band, the end labelled, the baseline dotted; vectors all of it. */
export function drawChart(sheet: Sheet, chart: Chart, place: Place): void {
  const top = sheet.y + 8
  const left = place.x + tickWidth
  const right = place.x + place.width - labelWidth
  const scale = scaleOf(chart)
  const x = (at: number) =>
    chart.points.length < 2 ? right : left + ((right - left) * at) / (chart.points.length - 1)
  const y = (value: number) => {
    const share = (Math.min(scale.high, Math.max(scale.low, value)) - scale.low) / (scale.high - scale.low)
    return top + (1 - share) * place.height
  }
  const { points, limits, baseline } = chart
  draw(sheet, chart.alt, (doc) => {
    for (const run of runs(points, (point) => point.low !== null && point.high !== null)) {
      const upper = run.map((at): [number, number] => [x(at), y(points[at]?.high ?? 0)])
      const lower = run.map((at): [number, number] => [x(at), y(points[at]?.low ?? 0)]).reverse()
      doc.polygon(...upper, ...lower).fill(ink.band)
    }
    doc.lineWidth(0.5).strokeColor(ink.soft)
    for (const limit of limits) doc.moveTo(left, y(limit.value)).lineTo(right, y(limit.value)).stroke()
    if (baseline)
      doc
        .moveTo(left, y(baseline.value))
        .lineTo(right, y(baseline.value))
        .dash(1, { space: 2 })
        .strokeColor(ink.ink)
        .stroke()
        .undash()
    if (chart.drawn === "columns") {
      doc.moveTo(left, y(0)).lineTo(right, y(0)).lineWidth(0.5).strokeColor(ink.soft).stroke()
      points.forEach(({ value }, at) => {
        if (value) doc.moveTo(x(at), y(0)).lineTo(x(at), y(value))
      })
      doc.lineWidth(3).strokeColor(ink.accent).stroke()
      return
    }
    doc.lineWidth(1.4).lineJoin("round").strokeColor(ink.accent)
    for (const run of runs(points, (point) => point.value !== null)) {
      run.forEach((at, step) => {
        const height = y(points[at]?.value ?? 0)
        if (step === 0) doc.moveTo(x(at), height)
        else doc.lineTo(x(at), height)
      })
      doc.stroke()
      const [only] = run
      if (run.length === 1 && only !== undefined)
        doc.circle(x(only), y(points[only]?.value ?? 0), 1).fill(ink.accent)
    }
    const last = points.at(-1)
    if (last && last.value !== null) doc.circle(x(points.length - 1), y(last.value), 2.4).fill(ink.accent)
  })
  label(sheet, chart, { x: right + 6, y, taken: points.at(-1)?.value ?? null })
  for (const value of [scale.low, scale.high])
    sayAt(sheet, chart.tick(value), y(value) - 5, {
      ...{ x: place.x, width: tickWidth - 5, align: "right", size: 7.5, colour: ink.soft, gap: 0 },
    })
  const [first] = points
  const foot = top + place.height + 4
  const small = { size: 7.5, colour: ink.soft, gap: 0 } as const
  if (first && points.length > 1) sayAt(sheet, monthShort(first.asOf), foot, { ...small, x: left, width: 80 })
  const end = points.at(-1)
  if (end) sayAt(sheet, monthShort(end.asOf), foot, { ...small, x: right - 80, width: 82, align: "right" })
  sheet.y = foot + 12
}

/** The end's label, then those of limits and baseline where they stand clear of each other. */
function label(
  sheet: Sheet,
  chart: Chart,
  at: { x: number; y: (value: number) => number; taken: number | null },
): void {
  const taken: number[] = []
  const others = [...chart.limits, ...(chart.baseline ? [chart.baseline] : [])]
  if (at.taken !== null) {
    taken.push(at.y(at.taken))
    sayAt(sheet, chart.endLabel, at.y(at.taken) - 6.5, {
      ...{ x: at.x, width: labelWidth - 6, font: "sansBold", size: 10, colour: ink.accent, gap: 0 },
    })
  }
  for (const other of others) {
    const y = at.y(other.value)
    if (taken.some((one) => Math.abs(one - y) < 10)) continue
    taken.push(y)
    sayAt(sheet, other.label, y - 5, { x: at.x, width: labelWidth - 4, size: 7.5, colour: ink.soft, gap: 0 })
  }
}

function scaleOf({ points, baseline, limits, least, ceiling, drawn }: Chart): { low: number; high: number } {
  const values = points
    .flatMap((point) => [point.value, point.low, point.high])
    .concat(drawn === "columns" ? 0 : null, baseline?.value ?? null, ...limits.map((limit) => limit.value))
    .filter((value) => value !== null)
  const middle = values.length === 0 ? 0 : (Math.min(...values) + Math.max(...values)) / 2
  const half =
    values.length === 0 ? least / 2 : Math.max(least, Math.max(...values) - Math.min(...values)) / 2
  const low = Math.max(0, middle - half)
  const high = Math.max(low + least, middle + half)
  if (ceiling === null || high <= ceiling) return { low, high }
  return { low: Math.max(0, Math.min(low, ceiling - least)), high: ceiling }
}

/** The unbroken stretches of points that have what is asked. */
function runs(points: readonly ChartPoint[], has: (point: ChartPoint) => boolean): number[][] {
  const found: number[][] = []
  points.forEach((point, at) => {
    if (!has(point)) return
    const run = found.at(-1)
    if (run && run.at(-1) === at - 1) run.push(at)
    else found.push([at])
  })
  return found
}
