import { expect, test } from "vitest"
import type { MeasureAction } from "../../../lib/domain/measure-actions"
import { dietFigure } from "../../../lib/figures/diet-figure"
import { dietSignals } from "../../../lib/figures/diet-signals"
import { firstOf } from "../../../lib/figures/first-lines"
import { dietSodium } from "../../../lib/measures/diet-sodium"
import { figureOf, movesOf } from "../../fixtures/month-figures"

// What comes first, and how many lines there are, is common practice, no source.

const space = "\u00a0"
const days = Array.from({ length: 24 }, (_, place) => new Date(Date.UTC(2024, 11 + place, 0)))
const asOfs = days.map((day) => day.toISOString().slice(0, 10))

/** Two years of counted days: about 3,000 mg, and `last` in the latest month, each month of so many people. */
function sodium(last: number, people = 40) {
  const rows = asOfs.map((as_of, place) => ({
    ...{ as_of, series: dietSodium.headlineSeries, n: people, sd_mg: 400, paired_n: 0 },
    mean_mg: place === asOfs.length - 1 ? last : 3000 + (place % 2 === 0 ? 40 : -40),
    ...{ paired_change_mg: null, paired_sd_mg: null },
  }))
  const figure = dietFigure(rows, asOfs, asOfs.at(-1) ?? "")
  const signals = dietSignals({ series: figure.headline, chosen: figure.chosen, chosenBaseline: null })
  return { figure, signals }
}

function action(dueOn: string | null, measureId = "bp-at-target"): MeasureAction {
  return {
    ...{
      id: 1,
      measureId,
      month: "2026-09",
      kind: "action",
      text: "Call them",
      owner: "Dr A",
      ownerId: null,
    },
    ...{ dueOn, state: "open", outcome: null, madeBy: "Lead", madeAt: new Date(0), closedBy: null },
    ...{ closedAt: null, version: 1 },
  }
}

function lines(asked: Partial<Parameters<typeof firstOf>[0]>) {
  const { lines: found } = firstOf({
    ...{ figures: [], diet: sodium(3010), actions: [], month: "2026-10", today: "2026-11-02" },
    ...asked,
  })
  return found.map(({ parts }) => parts.map(({ words }) => words).join(""))
}

/** 200 people of whom 32 got worse, which is more than chance. */
function worse(id: string) {
  return figureOf(id, {
    then: { met: 100, notMet: 100 },
    now: { met: 76, notMet: 124 },
    moves: movesOf(id, { gained: 8, lost: 32, met: 68, notMet: 92 }),
  })
}

const low = figureOf("low-pressure-on-drugs", { then: { met: 0, notMet: 9 }, now: { met: 3, notMet: 6 } })
const dual = figureOf("dual-ras-blockade", { then: { met: 0, notMet: 9 }, now: { met: 1, notMet: 8 } })

test("all people of the safety measures are one line, so that what else stands out is seen", () => {
  expect(lines({ figures: [dual, worse("bp-at-target"), low] })).toEqual([
    `People to look at: 3${space}with a systolic below 110 on drugs, 1${space}on two kinds of RAS blocker`,
    `Pressure at target: 32${space}slipped above it, 8${space}newly at target: more than chance`,
  ])
})

test("each count of the line leads to its people, and a finding to its measure", () => {
  const { lines: found } = firstOf({
    ...{ figures: [low, worse("bp-at-target")], diet: sodium(3010), actions: [], month: "2026-10" },
    today: "2026-11-02",
  })
  const leads = found.map(({ parts }) => parts.flatMap((part) => (part.leads === null ? [] : [part.leads])))

  expect(leads[0]).toEqual([{ measureId: "low-pressure-on-drugs", to: "people", people: 3, standing: "met" }])
  expect(leads[1]?.[0]).toEqual({ measureId: "bp-at-target", to: "whole", people: 0 })
  expect(leads[1]?.[1]).toEqual({ measureId: "bp-at-target", to: "people", people: 32, change: "lost" })
})

test("actions of earlier months that are open are told with how many are overdue, each measure once", () => {
  const actions = [action("2026-11-01"), action("2026-11-02"), action(null, "acr-tested")]

  expect(lines({ actions })).toEqual([
    `3${space}actions of earlier months open, 1 of them overdue: Pressure at target, Urine albumin tested`,
  ])
  expect(lines({ actions: [action(null)] })).toEqual([
    `1${space}action of earlier months open, none overdue: Pressure at target`,
  ])
})

test("actions of the month itself, and those that are done, are not told", () => {
  const own = { ...action(null), month: "2026-10" }

  expect(lines({ actions: [own, { ...action("2026-11-01"), state: "done" }] })).toEqual([])
})

test("a mean sodium above its limits is told before a change, one below them is not", () => {
  const [first, second] = lines({ figures: [worse("bp-at-target")], diet: sodium(4200) })

  expect(first).toMatch(/^Mean daily sodium: signal in the records of each month: above the limits in /)
  expect(second).toMatch(/^Pressure at target: /)
  expect(lines({ diet: sodium(1800) })).toEqual([])
})

test("a mean of fewer than 20 people is no finding", () => {
  expect(lines({ diet: sodium(4200, 19) })).toEqual([])
  expect(lines({ diet: sodium(4200, 20) })).toHaveLength(1)
})

test("five findings come first, and the others are counted", () => {
  const ids = ["bp-at-target", "acr-tested", "pressure-measured", "home-monitoring", "sglt2-in-ckd"]
  const figures = [...ids, "seen-by-dietitian", "monitoring-on-schedule"].map(worse)
  const diet = sodium(3010)
  const first = firstOf({ figures, diet, actions: [], month: "2026-10", today: "2026-11-02" })

  expect(first.lines).toHaveLength(5)
  expect(first.further).toBe(2)
})
