import type { Day } from "./day"
import type { Question } from "./question"
import { sodiumBeforeMonth, sodiumInMonth, type SodiumRecord } from "./diet"
import { mean, minus, toNumber, type Exact } from "./exact"
import { questions, type OfMonth, type Standings } from "./standings"
import { tInterval, wilson } from "./statistics"

export type Rate = {
  id: string
  population: number
  excluded: number
  unknown: number
  met: number
  notMet: number
  exception: number
  rate: number | null
  low: number | null
  high: number | null
  /** The standings of those whose deciding fact is of the month; null for a measure without one. */
  inMonth: { met: number; notMet: number; unknown: number } | null
}

export type DietSodium = {
  id: "diet-sodium"
  n: number
  meanMg: number | null
  low: number | null
  high: number | null
  pairedN: number
  pairedChangeMg: number | null
}

export type Measure = Rate | DietSodium

/** `ofMonth` and `sodium` are in the order of `patients`. */
export function measuresOf(clinic: {
  patients: { standings: Standings }[]
  ofMonth: OfMonth[]
  sodium: SodiumRecord[][]
  on: Day
}): Measure[] {
  const { patients, ofMonth, sodium, on } = clinic
  return [
    ...questions.map((question) => ({
      ...rateOf(question, patients),
      inMonth: inMonthOf(question, patients, ofMonth),
    })),
    dietSodium(sodium, on),
  ]
}

function inMonthOf({ id, factOn }: Question, patients: { standings: Standings }[], ofMonth: OfMonth[]) {
  if (!factOn) return null
  const decided = patients.filter((_, place) => ofMonth[place]?.[id] === true)
  const count = (standing: string) => decided.filter((each) => each.standings[id] === standing).length
  return { met: count("met"), notMet: count("not met"), unknown: count("unknown") }
}

/** Direction "down" leaves the unmeasured out of the denominator; "up" counts them against the clinic. */
function rateOf({ id, direction }: Question, patients: { standings: Standings }[]): Omit<Rate, "inMonth"> {
  const all = patients.map((patient) => patient.standings[id])
  const count = (standing: string) => all.filter((each) => each === standing).length
  const [excluded, unknown, met] = [count("excluded"), count("unknown"), count("met")]
  const [notMet, exception] = [count("not met"), count("exception")]
  const denominator = met + notMet + (direction === "up" ? unknown : 0)
  const interval = denominator === 0 ? null : wilson(met, denominator)
  return {
    ...{ id, excluded, unknown, met, notMet, exception },
    population: all.length - count("outside"),
    rate: denominator === 0 ? null : met / denominator,
    low: interval?.low ?? null,
    high: interval?.high ?? null,
  }
}

/** `sodium` holds the diet records of each patient of the panel. */
export function dietSodium(sodium: SodiumRecord[][], on: Day): DietSodium {
  const inMonth: Exact[] = []
  const changes: Exact[] = []
  for (const records of sodium) {
    const now = sodiumInMonth(records, on)
    const before = sodiumBeforeMonth(records, on)
    if (now) inMonth.push(now)
    if (now && before) changes.push(minus(now, before))
  }
  const interval = tInterval(inMonth.map(toNumber))
  return {
    id: "diet-sodium",
    n: inMonth.length,
    meanMg: inMonth.length === 0 ? null : toNumber(mean(inMonth)),
    low: interval?.low ?? null,
    high: interval?.high ?? null,
    pairedN: changes.length,
    pairedChangeMg: changes.length === 0 ? null : toNumber(mean(changes)),
  }
}
