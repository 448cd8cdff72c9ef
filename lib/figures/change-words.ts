import { count, listed, numbered, sentenceCase } from "../speech/format"
import { measureWords } from "../speech/measure-words"
import type { ChangeKind } from "../domain/changes"
import type { CauseCount, MeasureFigure } from "./measure-figure"

/** Who gained, lost, joined and left since the month before, in one sentence; null without an earlier month. */
export function changeSentence(figure: MeasureFigure): string | null {
  if (!figure.change) return null
  const { counts, causes } = figure.change
  const speech = measureWords(figure.measure)
  const moved = [
    { number: counts.gained, words: speech.gained, note: withoutNews(causes, "gained") },
    { number: counts.lost, words: speech.lost, note: withoutNews(causes, "lost") },
    { number: counts.joined, words: "joined", note: "" },
    { number: counts.left, words: "left", note: "" },
  ].filter((move) => move.number > 0)
  if (moved.length === 0) return "The same people as the month before."
  return `${sentenceCase(listed(moved.map((move) => `${numbered(move.number, move.words)}${move.note}`)))}.`
}

/** " (3 of them without a new fact, 1 by a setting)": how many of those who gained or lost did without clinical news. */
export function withoutNews(causes: readonly CauseCount[], kind: ChangeKind): string {
  const said = Object.entries(newsless).flatMap(([cause, words]) => {
    const people = causes.find((one) => one.kind === kind && one.cause === cause)?.people ?? 0
    return people === 0 ? [] : [{ people, words }]
  })
  const parts = said.map(
    ({ people, words }, place) => `${count(people)}${place === 0 ? " of them" : ""} ${words}`,
  )
  return parts.length === 0 ? "" : ` (${parts.join(", ")})`
}

const newsless = {
  time: "without a new fact",
  late: "by a late or corrected fact",
  setting: "by what was set otherwise",
}
