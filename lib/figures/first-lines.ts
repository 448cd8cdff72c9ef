import type { ChangeKind } from "../domain/changes"
import { forMeeting, isOverdue, type MeasureAction } from "../domain/measure-actions"
import type { Standing } from "../domain/standings"
import { dietSodium } from "../measures/diet-sodium"
import { measureName } from "../measures/measure-name"
import { count, counted, numbered } from "../speech/format"
import { measureWords } from "../speech/measure-words"
import { attentionOf, attentionReasons, unfavourableSignal, unsafeOf, type Attention } from "./attention"
import type { DietFigure } from "./diet-figure"
import type { DietSignals } from "./diet-signals"
import { fewestForRate, type MeasureFigure } from "./measure-figure"

/** Words of a line; those with a measure lead to it: to its people, to its actions, or to all of it. */
export type FirstPart = {
  words: string
  leads:
    ({ measureId: string; to: "people" | "actions" | "whole"; people: number } & Partial<PeopleShown>) | null
}

type PeopleShown = { standing: Standing; change: ChangeKind }

export type FirstLine = { id: string; parts: readonly FirstPart[] }

export type First = {
  lines: FirstLine[]
  /** How many measures stand out beside those of the lines. */
  further: number
}

/** More findings than these do not come first. Common practice, no source. */
const mostFindings = 5

/**
 * What a meeting looks at first: the people the safety measures find in one line, the actions of earlier months that are
 * open in another, then what stands out, the gravest reason first.
 *
 * Shape: every figure of the month, the mean sodium with its judged series, the log of the meetings up to the month.
 */
export function firstOf(options: {
  figures: readonly MeasureFigure[]
  diet: { figure: DietFigure; signals: DietSignals }
  actions: readonly MeasureAction[]
  month: string
  today: string
}): First {
  const { figures, actions, month, today } = options
  const findings = [
    ...attentionOf(figures).map((one) => ({ reason: one.reason, line: findingLine(one) })),
    ...dietLines(options.diet).map((line) => ({ reason: "signal" as const, line })),
  ].toSorted((one, other) => attentionReasons.indexOf(one.reason) - attentionReasons.indexOf(other.reason))
  return {
    lines: [
      ...safetyLines(unsafeOf(figures)),
      ...actionLines({ open: forMeeting(actions, month).openBefore, today }),
      ...findings.slice(0, mostFindings).map(({ line }) => line),
    ],
    further: Math.max(0, findings.length - mostFindings),
  }
}

/** A line as a sentence. */
export function firstWords(parts: readonly FirstPart[]): string {
  return `${parts.map(({ words }) => words).join("")}.`
}

/** All people a safety measure finds, in one line: each count leads to its people. Who is in two is counted in both. */
function safetyLines(unsafe: readonly MeasureFigure[]): FirstLine[] {
  if (unsafe.length === 0) return []
  const parts = unsafe.map(({ measure, counts }): FirstPart => {
    const words = numbered(counts.met, measureWords(measure).found)
    return { words, leads: { measureId: measure.id, to: "people", people: counts.met, standing: "met" } }
  })
  return [{ id: "safety", parts: [plain("People to look at: "), ...joined(parts)] }]
}

function actionLines(options: { open: readonly MeasureAction[]; today: string }): FirstLine[] {
  const { open, today } = options
  if (open.length === 0) return []
  const late = open.filter((action) => isOverdue(action, today)).length
  const lateWords = late === 0 ? "none overdue" : `${count(late)} of them overdue`
  const said = `${counted(open.length, "action", "actions")} of earlier months open, ${lateWords}: `
  const parts = [...new Set(open.map(({ measureId }) => measureId))].map((measureId): FirstPart => ({
    words: measureName(measureId),
    leads: { measureId, to: "actions", people: 0 },
  }))
  return [{ id: "actions", parts: [plain(said), ...joined(parts)] }]
}

function findingLine({ figure: { measure }, parts }: Attention): FirstLine {
  const name: FirstPart = { words: measure.name, leads: { measureId: measure.id, to: "whole", people: 0 } }
  return {
    id: measure.id,
    parts: [
      name,
      plain(": "),
      ...parts.map(({ words, opens }): FirstPart => ({
        words,
        leads: opens === null ? null : { measureId: measure.id, to: "people", ...opens },
      })),
    ],
  }
}

/** The mean sodium, where its own records show that it rose; of fewer people than a rate asks for it is no finding. */
function dietLines({ figure, signals }: { figure: DietFigure; signals: DietSignals }): FirstLine[] {
  if (figure.headline.now.n < fewestForRate) return []
  const about = { direction: "down", chosen: figure.chosen, series: "records of each month" } as const
  const words = unfavourableSignal(signals, about)
  if (words === null) return []
  const name: FirstPart = {
    words: dietSodium.name,
    leads: { measureId: dietSodium.id, to: "whole", people: 0 },
  }
  return [{ id: dietSodium.id, parts: [name, plain(": "), plain(words)] }]
}

function plain(words: string): FirstPart {
  return { words, leads: null }
}

/** The parts with a comma between each two. */
function joined(parts: readonly FirstPart[]): FirstPart[] {
  return parts.flatMap((part, place) => (place === 0 ? [part] : [plain(", "), part]))
}
