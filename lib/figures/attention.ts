import type { ChangeKind } from "../domain/changes"
import type { Standing } from "../domain/standings"
import { count, numbered } from "../speech/format"
import { inMonthSeries } from "../speech/fact-words"
import { measureWords } from "../speech/measure-words"
import { benjaminiHochberg } from "../statistics/benjamini-hochberg"
import { pairedDifference } from "../statistics/paired-difference"
import { fewestForRate, type MeasureFigure } from "./measure-figure"
import { signalPhrase, type Judged } from "./signal-words"
import type { SignalFinding } from "./signals"

/** Why a measure stands out, the gravest first. */
export const attentionReasons = ["signal", "change", "unmeasured"] as const

export type AttentionReason = (typeof attentionReasons)[number]

/** A few words of a reason; those with people open them. */
export type ReasonPart = {
  words: string
  opens: { people: number; standing?: Standing; change?: ChangeKind } | null
}

export type Attention = {
  figure: MeasureFigure
  reason: AttentionReason
  /** The reason in words: a signal, a change with the chance it is held against, or the people not measured. */
  parts: readonly ReasonPart[]
  /** Among measures of one reason the larger comes first. */
  size: number
}

/** Above this adjusted chance a change may be chance. Common practice, no source. */
const chance = 0.05

/** From this share of those asked on, many are not measured. Common practice, no source. */
const manyUnmeasured = 1 / 3

/** A signal is news while it reaches the chosen month or the one before; the running month is not judged. */
const recentMonths = 1

/**
 * The measures of a month that stand out, the first first: an unfavourable signal, an unfavourable change larger than
 * chance, many not measured. A measure stands once, for its gravest reason.
 *
 * Shape: every figure of one month, each with its change since an earlier one. A change is larger than chance when the
 * exact McNemar chance of the people counted in both months, adjusted over all measures of the month, is below 0.05.
 * Fewer than 20 counted are no finding.
 */
export function attentionOf(figures: readonly MeasureFigure[]): Attention[] {
  const larger = largerThanChance(figures)
  return figures
    .flatMap((figure) => {
      const found = signal(figure) ?? (larger.has(figure) ? change(figure) : null) ?? unmeasured(figure)
      return found ? [{ figure, ...found }] : []
    })
    .sort((one, other) => placeOf(one) - placeOf(other) || other.size - one.size)
}

/** The safety measures that find somebody, however few, those with the most people first. */
export function unsafeOf(figures: readonly MeasureFigure[]): MeasureFigure[] {
  return figures
    .filter(
      ({ measure, counts }) => measure.theme === "safety" && measure.direction === "down" && counts.met > 0,
    )
    .toSorted((one, other) => other.counts.met - one.counts.met)
}

/** What an unfavourable signal that is still news says, as part of a sentence; null without one. */
export function unfavourableSignal(
  judged: Judged,
  about: { direction: "up" | "down"; chosen: number; series: string },
): string | null {
  const { judgement } = judged
  if (!judgement.ok) return null
  const bad = about.direction === "up" ? "below" : "above"
  const finding = judgement.findings.find((one) => isUnfavourable(one, bad, about.chosen - recentMonths))
  if (!finding) return null
  const alone = { ...judged, judgement: { ...judgement, findings: [finding] } }
  const words = signalPhrase(alone, about.series)
  return words === null ? null : clause(words)
}

type Found = Omit<Attention, "figure"> | null

function placeOf({ reason }: Attention): number {
  return attentionReasons.indexOf(reason)
}

function signal({ measure, rate, chosen, inMonth }: MeasureFigure): Found {
  if (!inMonth || rate.total < fewestForRate) return null
  const about = { direction: measure.direction, chosen, series: inMonthSeries(measure.fact) }
  const words = unfavourableSignal(inMonth, about)
  return words === null ? null : { reason: "signal", parts: [{ words, opens: null }], size: rate.total }
}

/** A sentence as part of another: its first letter small, without its full stop. */
function clause(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1).replace(/\.$/, "")
}

function isUnfavourable(finding: SignalFinding, bad: "above" | "below", from: number): boolean {
  if (finding.kind === "run") return finding.stretch.side === bad && finding.stretch.through >= from
  if (finding.kind === "outside") return finding.side === bad && finding.places.some((place) => place >= from)
  return false
}

/** The measures whose change for the worse chance would rarely make, judged together. */
function largerThanChance(figures: readonly MeasureFigure[]): ReadonlySet<MeasureFigure> {
  const compared = figures.flatMap((figure) => {
    const pair = pairOf(figure)
    return pair ? [{ figure, ...pair }] : []
  })
  const adjusted = benjaminiHochberg(compared.map(({ p }) => p))
  return new Set(
    compared
      .filter(({ isWorse }, place) => isWorse && (adjusted[place] ?? 1) < chance)
      .map(({ figure }) => figure),
  )
}

function pairOf({ measure, rate, change: moved }: MeasureFigure): { p: number; isWorse: boolean } | null {
  if (!moved || rate.total < fewestForRate || moved.counts.continuing < fewestForRate) return null
  const { earlierMet, leftMet, continuing, gained, lost } = moved.counts
  const bothMet = earlierMet - leftMet - lost
  const neither = continuing - bothMet - gained - lost
  const difference = pairedDifference({ bothMet, gained, lost, neither })
  if (!difference) return null
  return { p: difference.p, isWorse: measure.direction === "up" ? lost > gained : gained > lost }
}

function change({ measure, change: moved }: MeasureFigure): Found {
  if (!moved) return null
  const { gained, lost } = moved.counts
  const speech = measureWords(measure)
  const gain = {
    words: numbered(gained, speech.gained),
    opens: { people: gained, change: "gained" },
  } as const
  const loss = { words: numbered(lost, speech.lost), opens: { people: lost, change: "lost" } } as const
  const [first, second] = measure.direction === "up" ? [loss, gain] : [gain, loss]
  return {
    reason: "change",
    parts: [first, { words: ", ", opens: null }, second, { words: ": more than chance", opens: null }],
    size: Math.abs(lost - gained) / moved.counts.continuing,
  }
}

function unmeasured({ measure, counts }: MeasureFigure): Found {
  const asked = counts.met + counts.notMet + counts.unknown
  if (asked < fewestForRate || counts.unknown < asked * manyUnmeasured) return null
  const words = numbered(counts.unknown, measureWords(measure).unknown)
  return {
    reason: "unmeasured",
    parts: [
      { words, opens: { people: counts.unknown, standing: "unknown" } },
      { words: `, of ${count(asked)} asked`, opens: null },
    ],
    size: counts.unknown / asked,
  }
}
