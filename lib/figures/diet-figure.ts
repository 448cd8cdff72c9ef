import { counted, milligramInterval, milligrams, monthShort } from "../speech/format"
import { dietSodium } from "../measures/diet-sodium"
import type { DietMonth } from "../questions/diet-months"
import type { Interval } from "../statistics/interval"
import { median } from "../statistics/median"
import { tInterval } from "../statistics/t-interval"

export type DietPoint = { asOf: string; n: number; meanMg: number | null; interval: Interval | null }

/** A mean of fewer people is told with their number, and neither drawn nor judged (common practice, no source). */
export const fewestForMean = 5

/** The months of a series as they are drawn: a mean of fewer than five people is left out, and its interval, too. */
export function drawnPoints({ points }: DietSeries): DietPoint[] {
  return points.map((point) => (point.n < fewestForMean ? { ...point, meanMg: null, interval: null } : point))
}

/** The interval that is said beside a mean; of two or three people it may reach below nothing, and is left to the tables. */
export function toldInterval({ n, interval }: DietPoint): Interval | null {
  return n < fewestForMean ? null : interval
}

/** What stands where a chart would, when none of its months may be drawn. */
export const noneDrawn = `No month has a record of ${fewestForMean} people or more, so no line is drawn.`

export type PairedChange = { n: number; changeMg: number; interval: Interval | null }

export type DietSeries = {
  name: string
  points: DietPoint[]
  now: DietPoint
  paired: PairedChange | null
  baselineMg: number | null
}

/** Everything said of diet sodium in one month: each series by itself, the headline series first. */
export type DietFigure = { series: DietSeries[]; headline: DietSeries; chosen: number; people: number }

const baselineMonths = 12

export function dietFigure(rows: readonly DietMonth[], asOfs: readonly string[], asOf: string): DietFigure {
  const series = dietSodium.series.map((name) => seriesOf(name, rows, asOfs, asOf))
  const headline =
    series.find((one) => one.name === dietSodium.headlineSeries) ??
    seriesOf(dietSodium.headlineSeries, rows, asOfs, asOf)
  return {
    series,
    headline,
    chosen: asOfs.indexOf(asOf),
    people: series.reduce((sum, one) => sum + one.now.n, 0),
  }
}

export function dietFinding(series: DietSeries): string {
  const first = series.points.find((point) => point.meanMg !== null)
  const { now } = series
  const interval = toldInterval(now)
  if (!first || first.meanMg === null) return `Mean daily sodium, ${series.name}: no record in these months.`
  const present =
    now.meanMg === null
      ? `no record in ${monthShort(now.asOf)}`
      : `${meanOf(now)}${interval ? `, 95% interval ${milligramInterval(interval)}` : ""}`
  return `Mean daily sodium, ${series.name}: ${meanOf(first)}, ${present}.`
}

/** "1,900 mg in Oct 2026"; a mean of few with their number: "1,900 mg of 3 people in Oct 2026". */
function meanOf({ asOf, n, meanMg }: DietPoint): string {
  const people = n < fewestForMean ? ` of ${counted(n, "person", "people")}` : ""
  return `${milligrams(meanMg ?? 0)}${people} in ${monthShort(asOf)}`
}

/** "260 mg less (170 to 350)", "40 mg less (150 less to 70 more)". */
export function pairedWords(paired: PairedChange): string {
  const size = `${milligrams(Math.abs(paired.changeMg))} ${paired.changeMg < 0 ? "less" : "more"}`
  if (!paired.interval) return size
  const { low, high } = paired.interval
  if (low <= 0 && high >= 0) {
    return `${size} (${plain(low)} less to ${plain(high)} more)`
  }
  const [near, far] = paired.changeMg < 0 ? [-high, -low] : [low, high]
  return `${size} (${plain(near)} to ${plain(far)})`
}

/** What the paired change says at a glance; an interval on both sides of none says neither, and few people say nothing. */
export function pairedTitle(paired: PairedChange): string {
  if (paired.n < fewestForMean) return "Too few of the same people to tell"
  if (!paired.interval || (paired.interval.low <= 0 && paired.interval.high >= 0))
    return "No clear change in the same people"
  return paired.changeMg < 0 ? "Falling in the same people" : "Rising in the same people"
}

function plain(mg: number): string {
  return milligrams(Math.abs(mg)).replace(/\u00a0mg$/, "")
}

function seriesOf(
  name: string,
  rows: readonly DietMonth[],
  asOfs: readonly string[],
  asOf: string,
): DietSeries {
  const byDay = new Map(rows.filter((row) => row.series === name).map((row) => [row.as_of, row]))
  const points = asOfs.map((day) => pointOf(day, byDay.get(day)))
  const row = byDay.get(asOf)
  return {
    name,
    points,
    now: pointOf(asOf, row),
    paired: row && row.paired_change_mg !== null ? pairedOf(row, row.paired_change_mg) : null,
    baselineMg: median(
      points.slice(0, baselineMonths).map(({ n, meanMg }) => (n < fewestForMean ? null : meanMg)),
    ),
  }
}

function pointOf(asOf: string, row: DietMonth | undefined): DietPoint {
  if (!row) return { asOf, n: 0, meanMg: null, interval: null }
  return {
    asOf,
    n: row.n,
    meanMg: row.mean_mg,
    interval: tInterval({ n: row.n, mean: row.mean_mg, sd: row.sd_mg }),
  }
}

function pairedOf(row: DietMonth, changeMg: number): PairedChange {
  return {
    n: row.paired_n,
    changeMg,
    interval: tInterval({ n: row.paired_n, mean: changeMg, sd: row.paired_sd_mg }),
  }
}
