import type { Mean, Share } from "./tally"

/** One published figure, the range judged plausible from it, and what the generator gave. */
export type PlausibilityRow = {
  figure: string
  /** What is published, in short. */
  published: string
  source: string
  unit: "%" | "% a month" | "per 100 person-years" | "years" | "mg"
  low: number
  high: number
  value: number | null
  counts: string
}

/** A row whose value is a share, in percent. Null when nobody is in it. */
export function percentRow(
  row: { figure: string; published: string; source: string; low: number; high: number },
  share: Share,
): PlausibilityRow {
  return {
    ...row,
    unit: "%",
    value: share.of === 0 ? null : (100 * share.met) / share.of,
    counts: `${share.met} of ${share.of}`,
  }
}

/** Null when there is nothing to average. */
export function meanOf(mean: Mean): number | null {
  return mean.n === 0 ? null : mean.sum / mean.n
}
