import type { Chart, ChartPoint } from "./chart"
import type { Frame } from "./chart-frame"
import { ink } from "./sheet"

type Doc = PDFKit.PDFDocument

/** The interval of each month as a band. */
export function paintBand(doc: Doc, { points }: Chart, { x, y }: Frame): void {
  for (const run of runs(points, (point) => point.low !== null && point.high !== null)) {
    const upper = run.map((at): [number, number] => [x(at), y(points[at]?.high ?? 0)])
    const lower = run.map((at): [number, number] => [x(at), y(points[at]?.low ?? 0)]).reverse()
    doc.polygon(...upper, ...lower).fill(ink.band)
  }
}

/** Lines over all months, between what chance alone stays, and the baseline as a dotted line over the months it holds for. */
export function paintLevels(doc: Doc, { limits, bounds, baseline }: Chart, frame: Frame): void {
  const { left, right, x, y } = frame
  doc.lineWidth(0.5).strokeColor(ink.soft)
  for (const limit of limits) doc.moveTo(left, y(limit.value)).lineTo(right, y(limit.value)).stroke()
  for (const end of ["low", "high"] as const)
    for (const run of runs(bounds, (bound) => bound[end] !== null)) {
      tracePath(
        doc,
        run.map((at) => [x(at), y(bounds[at]?.[end] ?? 0)]),
      )
      doc.stroke()
    }
  if (!baseline) return
  doc.moveTo(x(baseline.from), y(baseline.value)).lineTo(right, y(baseline.value))
  doc.lineWidth(0.6).dash(1, { space: 2 }).strokeColor(ink.ink).stroke().undash()
}

/** The months themselves: a line, columns on 0, or a dot each on a thin thread. */
export function paintSeries(doc: Doc, { points, drawn }: Chart, { left, right, x, y }: Frame): void {
  if (drawn === "columns") {
    doc.moveTo(left, y(0)).lineTo(right, y(0)).lineWidth(0.5).strokeColor(ink.soft).stroke()
    points.forEach(({ value }, at) => {
      if (value) doc.moveTo(x(at), y(0)).lineTo(x(at), y(value))
    })
    doc.lineWidth(3).strokeColor(ink.accent).stroke()
    return
  }
  doc
    .lineWidth(drawn === "dots" ? 0.5 : 1.4)
    .lineJoin("round")
    .strokeColor(ink.accent)
  for (const run of runs(points, (point) => point.value !== null)) {
    tracePath(
      doc,
      run.map((at) => [x(at), y(points[at]?.value ?? 0)]),
    )
    doc.stroke()
    if (run.length > 1 && drawn === "line") continue
    for (const at of run) doc.circle(x(at), y(points[at]?.value ?? 0), drawn === "dots" ? 1.3 : 1)
    doc.fill(ink.accent)
  }
  const last = points.at(-1)
  if (last && last.value !== null) doc.circle(x(points.length - 1), y(last.value), 2.4).fill(ink.accent)
}

/** A ring about each month outside its limits. */
export function paintOutside(doc: Doc, { points, bounds }: Chart, { x, y }: Frame): void {
  bounds.forEach(({ outside }, at) => {
    const value = points[at]?.value ?? null
    if (outside === null || value === null) return
    doc.circle(x(at), y(value), 2.9).lineWidth(0.7).strokeColor(ink.ink).stroke()
  })
}

/** A thin line down the chart at the day of each note. */
export function paintNotes(doc: Doc, { notes }: Chart, { along, top, height }: Frame): void {
  doc.lineWidth(0.5).dash(2.5, { space: 1.5 }).strokeColor(ink.soft)
  for (const note of notes)
    doc
      .moveTo(along(note.along), top - 2)
      .lineTo(along(note.along), top + height)
      .stroke()
  doc.undash()
}

function tracePath(doc: Doc, places: readonly [number, number][]): void {
  places.forEach(([x, y], step) => {
    if (step === 0) doc.moveTo(x, y)
    else doc.lineTo(x, y)
  })
}

/** The unbroken stretches of months that have what is asked. */
function runs<Month extends ChartPoint | Chart["bounds"][number]>(
  months: readonly Month[],
  has: (month: Month) => boolean,
): number[][] {
  const found: number[][] = []
  months.forEach((month, at) => {
    if (!has(month)) return
    const run = found.at(-1)
    if (run && run.at(-1) === at - 1) run.push(at)
    else found.push([at])
  })
  return found
}
