import { count, listed, numbered, sentenceCase } from "../speech/format"
import { measureWords } from "../speech/measure-words"
import type { MeasureFigure } from "./measure-figure"

/** Who gained, lost, joined and left since the month before, in one sentence; null without an earlier month. */
export function changeSentence(figure: MeasureFigure): string | null {
  if (!figure.change) return null
  const { counts, causes } = figure.change
  const withoutNews = (kind: "gained" | "lost") =>
    causes.find((one) => one.kind === kind && one.cause === "time")?.people ?? 0
  const speech = measureWords(figure.measure)
  const moved = [
    { number: counts.gained, words: speech.gained, note: aside(withoutNews("gained"), "without a new fact") },
    { number: counts.lost, words: speech.lost, note: aside(withoutNews("lost"), "without a new fact") },
    { number: counts.joined, words: "joined", note: "" },
    { number: counts.left, words: "left", note: "" },
  ].filter((move) => move.number > 0)
  if (moved.length === 0) return "The same people as the month before."
  return `${sentenceCase(listed(moved.map((move) => `${numbered(move.number, move.words)}${move.note}`)))}.`
}

function aside(number: number, words: string): string {
  return number === 0 ? "" : ` (${count(number)} of them ${words})`
}
