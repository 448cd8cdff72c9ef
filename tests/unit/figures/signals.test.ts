import { describe, expect, it } from "vitest"
import { lastDayOfMonth } from "../../../lib/domain/plain-date"
import { defaultSettings } from "../../../lib/domain/settings"
import { inMonthFigure } from "../../../lib/figures/in-month-figure"
import { signalPhrase, signalSentence } from "../../../lib/figures/signal-words"
import { bpAtTarget } from "../../../lib/measures/bp-at-target"
import { pressureMeasured } from "../../../lib/measures/pressure-measured"
import { untreatedAboveTarget } from "../../../lib/measures/untreated-above-target"
import { wordedMeasure } from "../../../lib/measures/worded-measures"
import type { Measure } from "../../../lib/measures/types"
import { runSignal } from "../../../lib/statistics/run-signal"
import { stableSeries } from "../../fixtures/statistics/stable-series"

const firstMonth = 2023 * 12

/** As-of dates of so many months from January 2023, all of them over. */
function monthEnds(months: number): string[] {
  return Array.from({ length: months }, (_, place) => {
    const number = firstMonth + place
    return lastDayOfMonth(`${Math.floor(number / 12)}-${String((number % 12) + 1).padStart(2, "0")}`)
  })
}

type Series = readonly { met: number; total: number }[]

function figureOf(
  series: Series,
  options: { measure?: Measure; from?: string; asOf?: string; last?: string },
) {
  const measure = wordedMeasure(options.measure ?? bpAtTarget, defaultSettings)
  const ends = monthEnds(series.length)
  const asOfs = options.last === undefined ? ends : [...ends.slice(0, -1), options.last]
  const figure = inMonthFigure({
    measure,
    rows: series.map(({ met, total }, place) => ({
      ...{ measure_id: measure.id, as_of: asOfs[place] ?? "", met, not_met: total - met, unknown: 0 },
    })),
    asOfs,
    asOf: options.asOf ?? asOfs.at(-1) ?? "",
    chosenBaseline:
      options.from === undefined
        ? null
        : {
            ...{ id: 1, measureId: measure.id, fromMonth: options.from, reason: "a new protocol" },
            ...{ madeBy: "Ruth Alder", madeOn: "2024-12-01" },
          },
  })
  if (!figure) throw new Error("the measure has no deciding fact")
  return figure
}

/** So many months of so many people, with these of each hundred met in turn. */
function months(number: number, met: readonly number[], total = 100): Series {
  return Array.from({ length: number }, (_, place) => ({ met: met[place % met.length] ?? 0, total }))
}

const steady = months(12, [58, 62, 60, 61, 59, 63])

describe("signals", () => {
  // The series and its answer are of the measure reference, part 3.8; computed in R.
  it("finds none in a stable series of 14 months with 14 useful points", () => {
    const figure = figureOf(stableSeries, {})

    expect(figure.judgement).toMatchObject({ ok: true, findings: [] })
    expect(signalSentence(figure, "up")).toBe("No signal: within what chance does.")
    expect(signalPhrase(figure, "readings of the month")).toBeNull()
  })

  // 24 useful points allow a longest run of 8 (Anhoej 2014); here December and the 12 months after it lie above.
  it("finds a run above the median of the first year, and names its months", () => {
    const figure = figureOf([...steady, ...months(12, [64, 65])], {})

    expect(signalSentence(figure, "up")).toContain(
      "Signal: 13\u00a0months in a row above the median of the first year, Dec\u00a02023 to Dec\u00a02024",
    )
    expect(signalSentence(figure, "up")).toMatch(/Higher is better here\.$/)
  })

  it("says in short which series the signal is in", () => {
    const figure = figureOf([...steady, { met: 30, total: 100 }], {})

    expect(signalPhrase(figure, "readings of the month")).toBe(
      "Signal in the readings of the month: below the limits in Jan\u00a02024.",
    )
  })

  // 12 useful points ask for 3 crossings (Anhoej 2014, from the binomial distribution); here there is one.
  it("finds a median that is crossed too rarely, without a run or a side", () => {
    const figure = figureOf([...months(6, [58, 59]), ...months(6, [63, 62])], {})

    expect(signalSentence(figure, "up")).toBe(
      "Signal: the median of the first year is crossed 1\u00a0time in 12\u00a0months, chance would cross it at least 3 times.",
    )
  })

  // All twelve later months lie above the first year's median, 57: a run of 12 where 24 useful points allow 8 (Anhoej 2014).
  // About the median of all, 60.5, the longest run is 3 and the series crosses it 16 times, where it need cross 8 times.
  it("finds none that is one about the median of the first year alone", () => {
    const year = [50, 64, 51, 65, 52, 58, 60, 66, 55, 63, 54, 56]
    const later = [62, 58, 66, 58, 63, 61, 64, 58, 62, 61, 66, 58]
    const figure = figureOf(
      [...year, ...later].map((met) => ({ met, total: 100 })),
      {},
    )
    const rates = figure.points.map((point) => point.value)

    expect(runSignal(rates, figure.judgement.median ?? 0)).toMatchObject({ isShifted: true })
    expect(runSignal(rates, 0.605)).toMatchObject({ useful: 24, longestRun: 3, crossings: 16 })
    expect(figure.judgement.findings).toEqual([])
  })

  it("keeps the median of the first year whatever comes later", () => {
    expect(figureOf([...steady, ...months(24, [90])], {}).judgement.median).toBe(0.605)
  })

  it("finds a single month outside the limits and says on which side", () => {
    const figure = figureOf([...steady, { met: 30, total: 100 }, ...months(3, [61, 58])], {})

    expect(figure.judgement.findings).toEqual([{ kind: "outside", side: "below", places: [12] }])
    expect(signalSentence(figure, "up")).toBe(
      "Signal: below the limits in Jan\u00a02024. Higher is better here.",
    )
  })

  it("says that lower is better where the measure counts what is not wanted", () => {
    const figure = figureOf([...steady, { met: 30, total: 100 }], { measure: untreatedAboveTarget })

    expect(signalSentence(figure, "down")).toBe(
      "Signal: below the limits in Jan\u00a02024. Lower is better here.",
    )
  })

  it("raises none from a month of few people", () => {
    const figure = figureOf([...steady, { met: 0, total: 8 }], {})

    expect(figure.points[12]).toMatchObject({ isJudged: false, outside: null, value: 0 })
    expect(figure.judgement.findings).toEqual([])
  })

  it("does not judge the running month", () => {
    const figure = figureOf([...steady, { met: 30, total: 100 }], { last: "2024-01-17" })

    expect(figure.points[12]).toMatchObject({ isJudged: false, outside: null })
    expect(figure.judgement.findings).toEqual([])
  })

  it("does not judge what came after the month asked about", () => {
    const series = [...steady, { met: 60, total: 100 }, { met: 30, total: 100 }]

    expect(figureOf(series, { asOf: "2024-01-31" }).judgement.findings).toEqual([])
    expect(figureOf(series, { asOf: "2024-02-29" }).judgement.findings).toHaveLength(1)
  })

  it.each([
    ["too few months", steady.slice(0, 9)],
    ["months of few people alone", months(24, [3, 5], 8)],
  ])("judges nothing with %s", (_words, series) => {
    const figure = figureOf(series, {})

    expect(figure.judgement).toMatchObject({ ok: false, reason: "too-few-months" })
    expect(signalSentence(figure, "up")).toBe("Not judged: too few months with enough people.")
  })

  it("judges nothing by a baseline in which nobody met, however often somebody does later", () => {
    const figure = figureOf([...months(12, [0]), ...months(12, [1, 2])], {})

    expect(figure.judgement).toMatchObject({ ok: false, reason: "no-spread" })
  })

  it("has no series for a measure without a deciding fact", () => {
    const measure = wordedMeasure(pressureMeasured, defaultSettings)
    const asOfs = monthEnds(12)

    expect(
      inMonthFigure({ measure, rows: [], asOfs, asOf: asOfs[11] ?? "", chosenBaseline: null }),
    ).toBeNull()
  })
})

describe("a baseline that somebody set", () => {
  const shifted = [...steady, ...months(12, [78, 82, 80, 81, 79, 83])]

  it("judges the months from it on, and no earlier ones", () => {
    expect(figureOf(shifted, {}).judgement.findings).not.toEqual([])

    const figure = figureOf(shifted, { from: "2024-01" })

    expect(figure.judgement).toMatchObject({ ok: true, median: 0.805, findings: [] })
    expect(figure.points.slice(0, 12).every((point) => !point.isJudged && point.low === null)).toBe(true)
  })

  it("gives way to the first year of the months shown once it is none of them", () => {
    const figure = figureOf(shifted, { from: "2022-06" })

    expect(figure.baseline).toMatchObject({ from: 0, chosen: null, passed: { fromMonth: "2022-06" } })
  })
})
