import { counted, oneDecimal } from "../speech/format"
import { funnel, type FunnelLimits } from "../statistics/funnel"
import type { Division } from "./group-figures"
import { fewestForRate } from "./measure-figure"

/** A unit of the funnel: the share that met, by the number of people counted. */
export type FunnelPoint = { name: string; share: number; total: number }

export type FunnelFigure = {
  points: FunnelPoint[]
  target: number
  /** The limits for rising numbers of people, up to beyond the largest unit. */
  limits: (FunnelLimits & { total: number })[]
  words: string
}

const fewestUnits = 5 // below it the spread between units is barely estimable
const steps = 60

/**
 * The clinicians of a measure around their common rate, those with fewer than 20 counted left out: their share would stand
 * for a handful. Null where fewer than two are left, or where all or nobody met.
 */
export function funnelFigure(division: Division): FunnelFigure | null {
  const units = division.groups.flatMap(({ key, name, rate }) =>
    key === null || rate === null || rate.total < fewestForRate
      ? []
      : [{ name, met: rate.met, total: rate.total }],
  )
  const around = units.length < 2 ? null : funnel(units)
  if (around === null) return null
  const few = division.groups.filter(
    ({ key, rate }) => key !== null && rate !== null && rate.total > 0 && rate.total < fewestForRate,
  ).length
  const most = Math.max(...units.map(({ total }) => total)) * 1.1
  const totals = Array.from({ length: steps }, (_, step) =>
    Math.max(1, Math.round((most * (step + 1)) / steps)),
  )
  return {
    points: units.map(({ name, met, total }) => ({ name, share: met / total, total })),
    target: around.target,
    limits: [...new Set(totals)].map((total) => ({ total, ...around.limitsAt(total) })),
    words: wordsOf({ units: units.length, few, phi: around.phi, isAdjusted: around.isAdjusted }),
  }
}

function wordsOf(found: { units: number; few: number; phi: number; isAdjusted: boolean }): string {
  const { units, few, phi, isAdjusted } = found
  const lines = isAdjusted
    ? `They vary more than chance alone gives (phi ${oneDecimal(phi)}), so the lines allow for that as well: inner 95%, outer 99.8%.`
    : "Lines: where chance alone would put 95% (inner) and 99.8% (outer); exact binomial limits."
  const unsure =
    units < fewestUnits
      ? ` Of ${counted(units, "clinician", "clinicians")} the limits are barely estimable.`
      : ""
  const left =
    few === 0
      ? ""
      : ` Not drawn: ${counted(few, "clinician", "clinicians")} with fewer than ${fewestForRate} people counted.`
  return `${lines}${unsure}${left} By name, no ranking; case mix is not adjusted for.`
}
