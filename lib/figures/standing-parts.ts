import type { Standing } from "../domain/standings"
import { measureWords, type StandingLook } from "../speech/measure-words"
import type { MeasureFigure } from "./measure-figure"

export type StandingPart = {
  standing: Standing
  words: string
  number: number
  look: StandingLook
  /** Whether it is told of nobody, too: that nobody is unmeasured is part of what a rate says. */
  isAlways: boolean
}

/**
 * Where the people of a measure stand, in the order that is always the same: met, not met, not measured where that can
 * be, and a documented reason where somebody has one. Nothing of a measure that asks nobody.
 */
export function standingParts({ counts, measure }: MeasureFigure): StandingPart[] {
  if (counts.met + counts.notMet + counts.unknown + counts.exception === 0) return []
  const speech = measureWords(measure)
  const metLook = measure.direction === "up" ? "reached" : "unreached"
  const { met, notMet, unknown, exception } = counts
  const parts: StandingPart[] = [
    { standing: "met", words: speech.met, number: met, look: metLook, isAlways: true },
    { standing: "not met", words: speech.notMet, number: notMet, look: speech.notMetLook, isAlways: true },
    {
      ...{ standing: "unknown", words: speech.unknown, number: unknown, look: "hatched" },
      isAlways: measure.unknown.length > 0,
    },
    { standing: "exception", words: speech.exception, number: exception, look: "pale", isAlways: false },
  ]
  return parts.filter((part) => part.isAlways || part.number > 0)
}
