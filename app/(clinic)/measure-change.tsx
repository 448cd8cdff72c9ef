import { numbered } from "../../lib/speech/format"
import { PeopleLink } from "../_ui/people-link"
import { changeTitle } from "../../lib/figures/change-title"
import { keptRateWords } from "../../lib/figures/kept-rate-words"
import { withoutNews } from "../../lib/figures/change-words"
import type { MeasureFigure } from "../../lib/figures/measure-figure"
import { measureWords } from "../../lib/speech/measure-words"
import { measureHref } from "./measures/search-params"
import type { ChangeKind } from "../../lib/domain/changes"
import styles from "./measure-row.module.css"

/** Why the rate moved since the month before: how far, and who gained, lost, joined and left; what is no clinical news is said. */
export function MeasureChangeWords(props: {
  figure: MeasureFigure
  month: string | null
  size: "full" | "short"
}) {
  const { figure } = props
  if (!figure.change) return <p className="soft">No earlier month to compare with.</p>
  const { counts, causes } = figure.change
  const speech = measureWords(figure.measure)
  const moves = [
    {
      kind: "gained",
      number: counts.gained,
      words: speech.gained,
      note: withoutNews(causes, "gained"),
    },
    {
      kind: "lost",
      number: counts.lost,
      words: speech.lost,
      note: withoutNews(causes, "lost"),
    },
    { kind: "joined", number: counts.joined, words: "joined", note: "" },
    { kind: "left", number: counts.left, words: "left", note: "" },
  ] as const
  const kept = keptRateWords(figure)
  const moved = moves.filter((move) => move.number > 0)
  const open = (change: ChangeKind) =>
    measureHref(figure.measure.id, { month: props.month, change }, "people")
  return (
    <>
      <p className={styles.change}>{changeTitle(figure)}</p>
      {props.size === "full" ? (
        <p>
          {moved.length === 0 ? "The same people as the month before." : null}
          {moved.map((move, place) => (
            <span key={move.kind}>
              {place === 0 ? "" : ", "}
              <PeopleLink href={open(move.kind)} number={move.number}>
                {numbered(move.number, move.words)}
              </PeopleLink>
              {move.note}
            </span>
          ))}
          {moved.length === 0 ? null : "."}
          {kept === null ? null : ` ${kept}`}
        </p>
      ) : null}
    </>
  )
}
