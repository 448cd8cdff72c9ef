import { fewestPoints } from "../statistics/fewest-points"
import { median } from "../statistics/median"
import { runSignal, type RunSignal } from "../statistics/run-signal"
import { baselineMonths, type Baseline } from "./baseline"
import { longestStretch, type Stretch } from "./stretch"

/** One month of the series that is judged; what lies outside is found by the limits of its kind of chart. */
export type SignalPoint = {
  asOf: string
  value: number | null
  /** The people behind the value. */
  people: number
  low: number | null
  high: number | null
  outside: "above" | "below" | null
  /** Whether the rules may look at it: the month is over, no later than the one asked about, and not of few people. */
  isJudged: boolean
}

export type SignalFinding =
  | { kind: "run"; stretch: Stretch }
  | { kind: "crossings"; crossings: number; fewest: number; months: number }
  | { kind: "outside"; side: "above" | "below"; places: number[] }

/** A series judged by the rules, or why it is not. */
export type Judgement =
  | { ok: true; median: number; findings: SignalFinding[] }
  | { ok: false; reason: "too-few-months" | "no-spread"; median: null; findings: [] }

/**
 * What the rules find in a series whose months share nobody: longest run and crossings, where they are found about the
 * baseline's median and about the median of all judged months; and months outside the limits.
 *
 * Shape: the points in order of time, and where the baseline lies. Only judged points from the baseline on are looked at.
 * Absent: no judgement with fewer than 10 judged months in the baseline, or fewer than 10 off its median.
 * Source: Anhoej J, Olesen AV, 2014, PLoS ONE 9:e113825, doi 10.1371/journal.pone.0113825 (runs, crossings); the limits
 * carry their own.
 */
export function judgeSeries(points: readonly SignalPoint[], baseline: Baseline): Judgement {
  const values = points.map((point, place) => (place >= baseline.from && point.isJudged ? point.value : null))
  const start = values.slice(baseline.from, baseline.from + baselineMonths)
  const centre = median(start)
  if (centre === null || start.filter((value) => value !== null).length < fewestPoints) return tooFew
  const runs = runSignal(values, centre)
  if (!runs.ok) return tooFew
  const findings: SignalFinding[] = isShiftedAmongAll(values) ? shiftFrom({ values, centre, runs }) : []
  for (const side of ["above", "below"] as const) {
    const places = points.flatMap((point, place) =>
      place >= baseline.from && point.isJudged && point.outside === side ? [place] : [],
    )
    if (places.length > 0) findings.push({ kind: "outside", side, places })
  }
  return { ok: true, median: centre, findings }
}

/**
 * Whether the rules find a shift about the median of all judged months too. The median of twelve months alone lies off the
 * true one so often that the rules about it would signal in three times as many charts as their authors say.
 */
function isShiftedAmongAll(values: readonly (number | null)[]): boolean {
  const centre = median(values)
  const runs = centre === null ? null : runSignal(values, centre)
  return runs?.ok === true && runs.isShifted
}

type Found = Extract<RunSignal, { ok: true }>

function shiftFrom(judged: {
  values: readonly (number | null)[]
  centre: number
  runs: Found
}): SignalFinding[] {
  const { longestRun, longestAllowed, crossings, fewestCrossings, useful } = judged.runs
  const stretch = longestRun > longestAllowed ? longestStretch(judged.values, judged.centre) : null
  if (stretch) return [{ kind: "run", stretch }]
  // A long run leaves few crossings: they tell something of their own only without one.
  return crossings < fewestCrossings
    ? [{ kind: "crossings", crossings, fewest: fewestCrossings, months: useful }]
    : []
}

const tooFew: Judgement = { ok: false, reason: "too-few-months", median: null, findings: [] }
