import type { ChangeCause, ChangeKind } from "../domain/changes"
import { causeWords } from "../speech/change-words"
import { points } from "../speech/format"
import { measureWords } from "../speech/measure-words"
import { roundedParts } from "../statistics/rounded-parts"
import { fewestForRate, type MeasureFigure } from "./measure-figure"

/** One part of a change: its people, its points (null where few are counted), and its causes with the people of each. */
export type ChangeRow = {
  kind: ChangeKind
  people: number
  words: string
  points: string | null
  causes: { cause: ChangeCause; people: number; words: string }[]
}

/** Points are shown to one decimal. */
const tenthOfPoint = 0.001

/** The four parts of a change; their points sum to that of the whole, and the people of the causes to each part. */
export function changeRows(figure: MeasureFigure): ChangeRow[] {
  const { change, earlier, rate } = figure
  if (!change || !earlier) return []
  const { counts, split, causes } = change
  const speech = measureWords(figure.measure)
  const isShare = split.ok && rate.total >= fewestForRate && earlier.rate.total >= fewestForRate
  const shares = split.ok
    ? roundedParts([split.gained, split.lost, split.joined, split.left], tenthOfPoint)
    : []
  const parts = [
    { kind: "gained", people: counts.gained, words: speech.gained },
    { kind: "lost", people: counts.lost, words: speech.lost },
    { kind: "joined", people: counts.joined, words: "joined the count" },
    { kind: "left", people: counts.left, words: "left the count" },
  ] as const
  return parts.map((part, place) => ({
    ...part,
    points: isShare ? points(shares[place] ?? 0) : null,
    causes: causes
      .filter((one) => one.kind === part.kind)
      .map(({ cause, people }) => ({ cause, people, words: causeWords(part.kind, cause) })),
  }))
}
