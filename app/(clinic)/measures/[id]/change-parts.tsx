import { Fragment } from "react"
import { changeTitle } from "../../../../lib/figures/change-title"
import { keptRateWords } from "../../../../lib/figures/kept-rate-words"
import {
  fewestForRate,
  rateLabel,
  type CauseCount,
  type FigureMonth,
  type MeasureFigure,
} from "../../../../lib/figures/measure-figure"
import type { ChangeKind } from "../../../../lib/domain/changes"
import { causeWords } from "../../../../lib/speech/change-words"
import { count, month as monthInFull, percent, percentInterval, points } from "../../../../lib/speech/format"
import { measureWords } from "../../../../lib/speech/measure-words"
import { roundedParts } from "../../../../lib/statistics/rounded-parts"
import { Button } from "../../../_ui/button"
import { PeopleLink } from "../../../_ui/people-link"
import { measureHref } from "../search-params"
import styles from "./change-parts.module.css"

/** Points are shown to one decimal. */
const tenthOfPoint = 0.001

/** The change since an earlier month, split exactly: the points of the four parts sum to the change, the people of the causes to each part. */
export function ChangeParts({ figure, month }: { figure: MeasureFigure; month: string | null }) {
  const { earlier } = figure
  if (!figure.change || !earlier || (figure.rate.total === 0 && earlier.rate.total === 0)) return null
  const { counts, split, causes } = figure.change
  const kept = keptRateWords(figure)
  const speech = measureWords(figure.measure)
  const isShare = split.ok && figure.rate.total >= fewestForRate && earlier.rate.total >= fewestForRate
  const shown = split.ok
    ? roundedParts([split.gained, split.lost, split.joined, split.left], tenthOfPoint)
    : []
  const since = sinceParam(figure, earlier)
  const open = (part: { change: ChangeKind; cause?: CauseCount["cause"] }) =>
    measureHref(figure.measure.id, { month, since, ...part }, "people")
  const parts = [
    { kind: "gained", number: counts.gained, words: speech.gained },
    { kind: "lost", number: counts.lost, words: speech.lost },
    { kind: "joined", number: counts.joined, words: "joined the count" },
    { kind: "left", number: counts.left, words: "left the count" },
  ] as const
  return (
    <div className={styles.change}>
      <h3>{changeTitle(figure)}</h3>
      <table>
        <caption className="visually-hidden">
          The parts of the change and their causes, in people and points
        </caption>
        <tbody>
          {parts.map((part, place) => (
            <Fragment key={part.kind}>
              <tr>
                <td>
                  <PeopleLink number={part.number} href={open({ change: part.kind })}>
                    {count(part.number)}
                  </PeopleLink>
                </td>
                <th scope="row">{part.words}</th>
                <td>{isShare ? points(shown[place] ?? 0) : null}</td>
              </tr>
              {causes
                .filter((one) => one.kind === part.kind)
                .map(({ kind, cause, people }) => (
                  <tr key={cause} className={styles.cause}>
                    <td />
                    <th scope="row" colSpan={2}>
                      <PeopleLink number={people} href={open({ change: kind, cause })}>
                        {count(people)}
                      </PeopleLink>{" "}
                      {causeWords(kind, cause)}
                    </th>
                  </tr>
                ))}
            </Fragment>
          ))}
        </tbody>
        {split.ok && isShare ? (
          <tfoot>
            <tr>
              <td />
              <th scope="row">together, in points</th>
              <td>{points(split.total)}</td>
            </tr>
          </tfoot>
        ) : null}
      </table>
      {earlier.rate.interval && figure.rate.interval && isShare ? (
        <p className="fine soft">
          {percent(earlier.rate.rate ?? 0)} ({percentInterval(earlier.rate.interval)}) then,{" "}
          {rateLabel(figure.rate)} ({percentInterval(figure.rate.interval)}) now, mostly of the same people.
        </p>
      ) : null}
      {kept === null ? null : <p className="fine soft">{kept}</p>}
      <p className="fine soft">
        Only a fact dated since then is clinical news. Every other part moves the rate without anything new
        about a patient.
      </p>
      <Since figure={figure} earlier={earlier} month={month} />
    </div>
  )
}

/** Which earlier month the change is told from. */
function Since(props: { figure: MeasureFigure; earlier: FigureMonth; month: string | null }) {
  const { figure, earlier, month } = props
  const choices = figure.months.slice(0, figure.chosen).toReversed()
  if (choices.length < 2) return null
  return (
    <form action={`/measures/${figure.measure.id}`} method="get" className={styles.since}>
      {month === null ? null : <input type="hidden" name="month" value={month} />}
      <label>
        <span>Compared with</span>{" "}
        <select name="since" defaultValue={earlier.asOf.slice(0, 7)} key={earlier.asOf}>
          {choices.map(({ asOf }) => (
            <option key={asOf} value={asOf.slice(0, 7)}>
              {monthInFull(asOf)}
            </option>
          ))}
        </select>
      </label>
      <Button type="submit">Compare</Button>
    </form>
  )
}

/** The earlier month as it stands in an address; the month before is the default and is left out. */
function sinceParam(figure: MeasureFigure, earlier: FigureMonth): string | null {
  return figure.months[figure.chosen - 1]?.asOf === earlier.asOf ? null : earlier.asOf.slice(0, 7)
}
