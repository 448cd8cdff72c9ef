import type { Standing } from "../domain/standings"
import { withSettings } from "../domain/setting-words"
import type { WordedMeasure } from "../measures/types"
import { dietSpeech } from "./themes/diet"
import { monitoringSpeech } from "./themes/monitoring"
import { pressureSpeech } from "./themes/pressure"
import { protectionSpeech } from "./themes/protection"
import { safetySpeech } from "./themes/safety"

/** How people of a standing are drawn; not measured is always hatched. */
export type StandingLook = "reached" | "unreached" | "hatched" | "pale"

/**
 * How a measure speaks. `headline` is a sentence template over the counts: met, notMet, unknown, exception,
 * excluded, population, total (the rate's denominator).
 */
export type MeasureWords = {
  headline: string
  /** The sentence where the count that leads it is nobody; null where "0 of 12" reads well. */
  nobody: { when: "met" | "notMet"; says: string } | null
  /** What follows the rate and its interval, as a template over the same counts. */
  rateOf: string
  met: string
  /** Of a safety measure: the people it finds, after their number and beside other measures' people. */
  found: string
  notMet: string
  unknown: string
  exception: string
  gained: string
  lost: string
  /** How the not met are drawn; hatched where not met means not measured. */
  notMetLook: StandingLook
  /** Whom the list shows first: those who want attention. */
  attention: Standing
}

/** What each measure of a theme says of its own, by id. */
export type Speech = Readonly<Record<string, Partial<MeasureWords>>>

const words: Speech = {
  ...pressureSpeech,
  ...protectionSpeech,
  ...dietSpeech,
  ...monitoringSpeech,
  ...safetySpeech,
}

/** The words of a measure; one that has none of its own speaks in those of the registry. */
export function measureWords(measure: WordedMeasure): MeasureWords {
  const isUp = measure.direction === "up"
  const speech: MeasureWords = {
    headline: isUp
      ? `{met} of {total} {total:person:people}: ${measure.metWords}.`
      : `{met} {met:person:people}: ${measure.metWords}.`,
    nobody: null,
    rateOf: isUp ? "" : "of {total}",
    met: isUp ? "met" : "present",
    found: measure.metWords,
    notMet: isUp ? "not met" : "not present",
    unknown: "not measured",
    exception: "documented reason",
    gained: isUp ? "gained" : "newly so",
    lost: isUp ? "lost" : "no longer",
    notMetLook: isUp ? "unreached" : "reached",
    attention: isUp ? "not met" : "met",
    ...words[measure.id],
  }
  return filled(speech, measure)
}

/** The same with what the clinic set in place of the settings its words name. */
function filled(speech: MeasureWords, { set }: WordedMeasure): MeasureWords {
  const said = (text: string) => withSettings(text, set)
  return {
    ...speech,
    headline: said(speech.headline),
    nobody: speech.nobody && { ...speech.nobody, says: said(speech.nobody.says) },
    rateOf: said(speech.rateOf),
    met: said(speech.met),
    found: said(speech.found),
    notMet: said(speech.notMet),
    unknown: said(speech.unknown),
    exception: said(speech.exception),
    gained: said(speech.gained),
    lost: said(speech.lost),
  }
}

/** The word of a standing in a list of people. */
export function standingWords(measure: WordedMeasure, standing: Standing): string {
  const speech = measureWords(measure)
  const byStanding: Record<Standing, string> = {
    outside: "outside the measure",
    excluded: "excluded",
    unknown: speech.unknown,
    met: speech.met,
    exception: speech.exception,
    "not met": speech.notMet,
  }
  return byStanding[standing]
}
