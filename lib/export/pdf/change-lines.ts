import { changeRows, type ChangeRow } from "../../figures/change-rows"
import { changeTitle } from "../../figures/change-title"
import { keptRateWords } from "../../figures/kept-rate-words"
import type { MeasureFigure } from "../../figures/measure-figure"
import { count, listed } from "../../speech/format"
import type { Line } from "./lines"
import { ink } from "./sheet"

type Place = { x: number; width: number }

const countWidth = 26
const pointsWidth = 28

/** The change since the month before: its four parts in people and points, each with what it rests on. */
export function changeLines(figure: MeasureFigure, place: Place): Line[] {
  const rows = changeRows(figure).filter((row) => row.people > 0)
  const title: Line = { cells: [{ ...place, text: changeTitle(figure), font: "sansBold" }], after: 2 }
  const note = keptRateWords(figure)
  const kept = note === null ? [] : [wordsLine(note, place)]
  if (!figure.change || rows.length > 0)
    return [title, ...rows.flatMap((row) => rowLines(row, place)), ...kept]
  return [title, wordsLine("The same people as the month before.", place), ...kept]
}

function wordsLine(text: string, place: Place): Line {
  return { cells: [{ ...place, text, size: 9, gap: 0 }], after: 3 }
}

function rowLines(row: ChangeRow, { x, width }: Place): Line[] {
  const wordsX = x + countWidth + 5
  const style = { size: 9, gap: 0 } as const
  const causes = row.causes.map((one) => `${count(one.people)}\u00a0${shortOf(one.words)}`)
  const people = { ...style, text: count(row.people), font: "sansBold", align: "right" } as const
  return [
    {
      cells: [
        { ...people, x, width: countWidth },
        { ...style, text: row.words, x: wordsX, width: x + width - pointsWidth - wordsX },
        { ...style, text: row.points ?? "", x: x + width - pointsWidth, width: pointsWidth, align: "right" },
      ],
      after: causes.length === 0 ? 2 : 0,
    },
    ...(causes.length === 0
      ? []
      : [
          {
            cells: [
              {
                text: listed(causes),
                x: wordsX,
                width: x + width - wordsX,
                size: 8,
                gap: 0,
                colour: ink.soft,
              },
            ],
            after: 3,
          },
        ]),
  ]
}

/** A cause without what is said of it after a colon. */
function shortOf(words: string): string {
  return words.split(":")[0] ?? words
}
