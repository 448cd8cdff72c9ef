import { bpAtTarget } from "../../lib/measures/bp-at-target"
import { wordedMeasure } from "../../lib/measures/worded-measures"
import { defaultSettings } from "../../lib/domain/settings"
import { lastDayOfMonth } from "../../lib/domain/plain-date"
import { inMonthFigure } from "../../lib/figures/in-month-figure"
import type { Judgement } from "../../lib/figures/signals"
import { median } from "../../lib/statistics/median"
import { runSignal } from "../../lib/statistics/run-signal"
import type { Random } from "../../seed/random"

const people = 200
const seenInMonth = 1 / 3
const longest = 36 // months of a chart; a shorter one shows the first of them
const window = 12 // months that the rolling series looks back

type Alarms = { runs: number; frozenAlone: number; outside: number; either: number; rolling: number }

/**
 * How many charts of a clinic in which nothing changes would signal: 200 people, each seen with a chance of 1/3 a month,
 * each with a chance of their own, from Beta(2.6, 1.4), of being at target at a visit, 24 and 36 months plotted.
 * Beside it what the run rules would find about the median of the first year alone, and in the series of the latest reading of
 * 12 months, where they are not applied.
 */
export function benchAlarms(options: { runs: number; random: Random }): void {
  const charts = new Map([24, longest].map((plotted) => [plotted, { ...none }]))
  for (let run = 0; run < options.runs; run += 1) {
    const clinic = quietClinic(options.random)
    for (const [plotted, alarms] of charts) {
      const inMonth = clinic.inMonth.slice(0, plotted)
      const rolling = clinic.rolling.slice(0, plotted)
      const found = kindsOf(judged(inMonth))
      if (found.has("run") || found.has("crossings")) alarms.runs += 1
      if (isShiftedFromFirstYear(inMonth)) alarms.frozenAlone += 1
      if (found.has("outside")) alarms.outside += 1
      if (found.size > 0) alarms.either += 1
      if (isShiftedFromFirstYear(rolling)) alarms.rolling += 1
    }
  }
  const share = (number: number) => `${((100 * number) / options.runs).toFixed(1)}%`
  for (const [plotted, alarms] of charts)
    process.stdout.write(
      [
        `Charts of a clinic in which nothing changes, ${plotted} months, ${options.runs} times:`,
        `longest run or crossings, in-month series: ${share(alarms.runs)} (about 5% in Anhoej and Olesen, 2014)`,
        `the same about the median of the first year alone: ${share(alarms.frozenAlone)}`,
        `a month outside the p' limits, in-month series: ${share(alarms.outside)}`,
        `either: ${share(alarms.either)}`,
        `longest run or crossings, were they applied to the rolling series: ${share(alarms.rolling)}`,
        "",
      ].join("\n"),
    )
}

const none: Alarms = { runs: 0, frozenAlone: 0, outside: 0, either: 0, rolling: 0 }

type Counted = { met: number; total: number }

function quietClinic(random: Random): { inMonth: Counted[]; rolling: Counted[] } {
  const chances = Array.from({ length: people }, () => beta(random))
  const latest = chances.map(() => ({ month: -window, met: false }))
  const inMonth: Counted[] = []
  const rolling: Counted[] = []
  for (let month = 0; month < window + longest; month += 1) {
    const seen = { met: 0, total: 0 }
    for (const [person, chance] of chances.entries()) {
      if (!random.chance(seenInMonth)) continue
      const met = random.chance(chance)
      latest[person] = { month, met }
      seen.total += 1
      if (met) seen.met += 1
    }
    const carried = latest.filter((one) => one.month > month - window)
    if (month < window) continue
    inMonth.push(seen)
    rolling.push({ met: carried.filter(({ met }) => met).length, total: carried.length })
  }
  return { inMonth, rolling }
}

const days = Array.from({ length: longest }, (_, place) => {
  const month = String((place % 12) + 1).padStart(2, "0")
  return lastDayOfMonth(`${2024 + Math.floor(place / 12)}-${month}`)
})

const measure = wordedMeasure(bpAtTarget, defaultSettings)

/** The series as the measure's screen judges it. */
function judged(series: readonly Counted[]): Judgement {
  const rows = series.map(({ met, total }, place) => ({
    measure_id: measure.id,
    as_of: days[place] ?? "",
    unknown: 0,
    met,
    not_met: total - met,
  }))
  const asOfs = days.slice(0, series.length)
  const asOf = asOfs.at(-1) ?? ""
  const figure = inMonthFigure({ measure, rows, asOfs, asOf, chosenBaseline: null })
  if (!figure?.judgement.ok) throw new Error("the series of a quiet clinic was not judged")
  return figure.judgement
}

/** What the run rules find about a median of twelve months, with no other condition. */
function isShiftedFromFirstYear(series: readonly Counted[]): boolean {
  const rates = series.map(({ met, total }) => met / total)
  const runs = runSignal(rates, median(rates.slice(0, 12)) ?? 0)
  return runs.ok && runs.isShifted
}

function kindsOf(judgement: Judgement): Set<string> {
  return new Set(judgement.findings.map(({ kind }) => kind))
}

function beta(random: Random): number {
  const one = gamma(2.6, random)
  return one / (one + gamma(1.4, random))
}

/** Marsaglia G, Tsang WW, 2000, A simple method for generating gamma variables, ACM Trans Math Softw 26:363-372. */
function gamma(shape: number, random: Random): number {
  const d = shape - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  for (;;) {
    const x = random.normal(0, 1)
    const v = (1 + c * x) ** 3
    if (v > 0 && Math.log(1 - random.unit()) < x ** 2 / 2 + d - d * v + d * Math.log(v)) return d * v
  }
}
