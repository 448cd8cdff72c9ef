import { numbered, percent, percentInterval } from "../speech/format"
import { measureWords, type StandingLook } from "../speech/measure-words"
import { sentenceText } from "../speech/sentence-text"
import { fewestForRate, headlineOf, type MeasureFigure } from "./measure-figure"

/** The measure's sentence with its numbers, as plain text. */
export function figureSentence(figure: MeasureFigure): string {
  if (figure.rate.total === 0) return `${figure.measure.name}: no one to count.`
  return sentenceText(headlineOf(figure), { ...figure.counts, total: figure.rate.total })
}

/** The rate with its interval, the share of the measured, and who was not measured; one phrase each. */
export function rateWords(figure: MeasureFigure): string[] {
  const { rate, counts, measure } = figure
  const speech = measureWords(measure)
  const isUp = measure.direction === "up"
  const hasShare = isUp && counts.unknown > 0 && rate.measured >= fewestForRate
  return [
    rateSaid(figure),
    hasShare && rate.ofMeasured !== null ? `${percent(rate.ofMeasured)} of the measured` : "",
    counts.exception > 0 ? numbered(counts.exception, `more with a ${speech.exception}`) : "",
    counts.unknown > 0 ? numbered(counts.unknown, speech.unknown) : "",
    counts.excluded > 0 ? numbered(counts.excluded, "excluded") : "",
  ].filter((words) => words !== "")
}

/** Where the people stand, in words with the look of each part; the order is always the same. */
export function stripOf(figure: MeasureFigure): { words: string; number: number; look: StandingLook }[] {
  const { counts, measure } = figure
  const speech = measureWords(measure)
  const met: StandingLook = measure.direction === "up" ? "reached" : "unreached"
  return [
    { words: speech.met, number: counts.met, look: met },
    { words: speech.notMet, number: counts.notMet, look: speech.notMetLook },
    { words: speech.unknown, number: counts.unknown, look: "hatched" },
    { words: speech.exception, number: counts.exception, look: "pale" },
  ]
}

function rateSaid({ rate, counts, measure }: MeasureFigure): string {
  if (rate.rate === null || rate.interval === null) return "No one in the panel is counted by it this month."
  if (rate.total < fewestForRate)
    return `Too few for a percentage; 95% interval ${percentInterval(rate.interval)}%.`
  const of = sentenceText(measureWords(measure).rateOf, { ...counts, total: rate.total })
  return `${percent(rate.rate)} (${percentInterval(rate.interval)}) ${of}`.trim()
}
