import { count, counted, listed, monthShort } from "../speech/format"
import { baselineWords, type Baseline } from "./baseline"
import type { Judgement, SignalFinding, SignalPoint } from "./signals"

/** What is said of a judged series: its points, where its baseline lies, and what was found. */
export type Judged = { points: readonly SignalPoint[]; baseline: Baseline; judgement: Judgement }

/** What the rules find, in a sentence; `wanted` is the direction that is good. */
export function signalSentence(judged: Judged, wanted: "up" | "down"): string {
  const { judgement } = judged
  if (!judgement.ok)
    return judgement.reason === "no-spread"
      ? "Not judged: the months of the baseline do not differ."
      : "Not judged: too few months with enough people."
  if (judgement.findings.length === 0) return "No signal: within what chance does."
  const found = judgement.findings.map((finding) => findingWords(finding, judged))
  const hasSide = judgement.findings.some((finding) => finding.kind !== "crossings")
  const better = hasSide ? ` ${wanted === "up" ? "Higher" : "Lower"} is better here.` : ""
  return `Signal: ${found.join("; ")}.${better}`
}

/** The first thing found in a series of this name, for a line with little room; null without a signal. */
export function signalPhrase(judged: Judged, series: string): string | null {
  const [first] = judged.judgement.findings
  return first ? `Signal in the ${series}: ${findingWords(first, judged)}.` : null
}

function findingWords(finding: SignalFinding, { points, baseline }: Judged): string {
  const nameOf = (place: number) => monthShort(points[place]?.asOf ?? "")
  const median = baseline.chosen ? "the median of the baseline" : "the median of the first year"
  switch (finding.kind) {
    case "run": {
      const { months, side, from, through } = finding.stretch
      return `${counted(months, "month", "months")} in a row ${side} ${median}, ${nameOf(from)} to ${nameOf(through)}`
    }
    case "crossings":
      return `${median} is crossed ${counted(finding.crossings, "time", "times")} in ${counted(finding.months, "month", "months")}, chance would cross it at least ${count(finding.fewest)} times`
    case "outside":
      return `${finding.side} the limits in ${monthsOf(finding.places, nameOf)}`
  }
}

/** Up to three months by name; of more the number, with the first and the last. */
function monthsOf(places: readonly number[], nameOf: (place: number) => string): string {
  if (places.length <= 3) return listed(places.map(nameOf))
  return `${counted(places.length, "month", "months")}, ${nameOf(places[0] ?? 0)} to ${nameOf(places.at(-1) ?? 0)}`
}

/** The rules, the width of the limits and what is left out, for the foot of a chart of rates. */
export function ratesFootnote(judged: Judged & { sigmaZ: number | null }): string {
  const sigma = judged.sigmaZ === null ? "" : `, sigma z ${judged.sigmaZ.toFixed(2)}`
  return [
    baselineWords(judged.baseline, asOfsOf(judged)),
    `Rules: longest run and crossings (Anhøj 2014), about this median and about that of all months judged; one month outside 3-sigma p′ limits (Laney 2002${sigma}).`,
    "Not judged: the running month, and months with fewer than 5 people expected on either side.",
  ].join(" ")
}

/** The same for a chart of means. */
export function meansFootnote(judged: Judged, fewestPeople: number): string {
  return [
    baselineWords(judged.baseline, asOfsOf(judged)),
    "Rules: longest run and crossings (Anhøj 2014), about this median and about that of all months judged; one month outside the limits for individual values, mean ± 2.66 mean moving ranges.",
    `Not judged: the running month, and months of fewer than ${count(fewestPeople)} people.`,
  ].join(" ")
}

function asOfsOf({ points }: Judged): string[] {
  return points.map((point) => point.asOf)
}

/** How a month stands to the limits, for a table. */
export function judgedWords(point: SignalPoint): string {
  if (!point.isJudged) return "not judged"
  return point.outside === null ? "within" : `outside, ${point.outside}`
}
