import { ageInYears, isInLastMonths, minusMonths, type Day } from "./day"
import { compare, dividedBy, exact, minus, times, toNumber, zero, type Exact } from "./exact"
import type { Lab } from "./facts"
import type { EgfrDay } from "./kidney"
import type { Person } from "./people"
import { hasProblem, isOnDialysis } from "./problems"

const maxGapDays = 183

/**
 * Risk of kidney failure within 2 years as a share, four variables, North America; null when not computable.
 * Source: Tangri et al. 2011, JAMA 305:1553 (coefficients); Tangri et al. 2016, JAMA 315:164 (baseline survival).
 */
export function failureRisk2Years(p: {
  person: Person
  on: Day
  egfr: EgfrDay | null
  urine: Lab[]
}): number | null {
  const { person, on, egfr } = p
  if (egfr === null || egfr.egfr >= 60 || person.sex === "unknown") return null
  if (isOnDialysis(person, on) || hasProblem(person, "transplant", on)) return null
  const acr = p.urine
    .filter((lab) => lab.test === "uacr" && compare(lab.value, zero) > 0)
    .filter((lab) => Math.abs(lab.day - egfr.day) <= maxGapDays)
    .at(-1)
  if (!acr) return null
  return fourVariableRisk({
    ageYears: ageInYears(person.birth, on),
    isMale: person.sex === "male",
    egfr: egfr.egfr,
    acrMgG: toNumber(acr.value),
  })
}

export function fourVariableRisk(p: {
  ageYears: number
  isMale: boolean
  egfr: number
  acrMgG: number
}): number {
  const linear =
    -0.2201 * (p.ageYears / 10 - 7.036) +
    0.2467 * ((p.isMale ? 1 : 0) - 0.5642) -
    0.5567 * (p.egfr / 5 - 7.222) +
    0.451 * (Math.log(p.acrMgG) - 5.137)
  return 1 - 0.975 ** Math.exp(linear)
}

/**
 * eGFR lost or gained per year of 365.25 days over the last 24 months, by least squares, exact; null for fewer than
 * 4 days with a value or when the first is not at least 12 months before the last.
 */
export function slopePerYear(days: EgfrDay[], on: Day): Exact | null {
  const inWindow = days.filter(({ day }) => isInLastMonths(day, on, 24))
  const [first, last] = [inWindow[0], inWindow.at(-1)]
  if (!first || !last || inWindow.length < 4 || first.day > minusMonths(last.day, 12)) return null
  const n = whole(inWindow.length)
  const sum = (of: (one: EgfrDay) => number) => whole(inWindow.reduce((total, one) => total + of(one), 0))
  const [x, y] = [sum((one) => one.day - first.day), sum((one) => one.egfr)]
  const xy = sum((one) => (one.day - first.day) * one.egfr)
  const xx = sum((one) => (one.day - first.day) ** 2)
  const perDay = dividedBy(minus(times(n, xy), times(x, y)), minus(times(n, xx), times(x, x)))
  return times(perDay, exact("365.25"))
}

function whole(value: number): Exact {
  return exact(String(value))
}
