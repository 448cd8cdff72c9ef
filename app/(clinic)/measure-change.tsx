import { count, monthName, numbered, pointsSize } from "../../lib/speech/format"
import { PeopleLink } from "../_ui/people-link"
import { fewestForRate, type MeasureFigure } from "../../lib/figures/measure-figure"
import { measureWords } from "../../lib/speech/measure-words"
import { measureHref } from "./measures/search-params"
import type { ChangeKind } from "../../lib/questions/moved-people"
import styles from "./measure-row.module.css"

/** Why the rate moved since the month before: how far, and who gained, lost, joined and left. */
export function MeasureChangeWords(props: {
  figure: MeasureFigure
  month: string | null
  size: "full" | "short"
}) {
  const { figure } = props
  const earlier = figure.months[figure.chosen - 1]
  if (!figure.change || !earlier) return <p className="soft">No earlier month to compare with.</p>
  const { counts } = figure.change
  const speech = measureWords(figure.measure)
  const moves = [
    {
      kind: "gained",
      number: counts.gained,
      words: speech.gained,
      note: aside(figure.change.gainedUnmeasured, "not measured before"),
    },
    {
      kind: "lost",
      number: counts.lost,
      words: speech.lost,
      note: aside(figure.change.lostUnmeasured, "not measured any more"),
    },
    { kind: "joined", number: counts.joined, words: "joined", note: "" },
    { kind: "left", number: counts.left, words: "left", note: "" },
  ] as const
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
        </p>
      ) : null}
    </>
  )
}

/** "Up 1.4 points since September"; where people are few, the two counts then and now. */
export function changeTitle(figure: MeasureFigure): string {
  const { rate } = figure
  const before = figure.months[figure.chosen - 1]
  if (!before || rate.rate === null || before.rate.rate === null) return "Nothing to compare with"
  const month = monthName(before.asOf)
  if (rate.total < fewestForRate || before.rate.total < fewestForRate) {
    const then = `${count(before.rate.met)} of ${count(before.rate.total)}`
    const now = `${count(rate.met)} of ${count(rate.total)}`
    return then === now ? `${now}, as in ${month}` : `${now}, from ${then} in ${month}`
  }
  const difference = rate.rate - before.rate.rate
  const size = pointsSize(difference)
  if (size.startsWith("0.0")) return `Unchanged since ${month}`
  return `${difference > 0 ? "Up" : "Down"} ${size} since ${month}`
}

function aside(number: number, words: string): string {
  return number === 0 ? "" : ` (${count(number)} of them ${words})`
}
