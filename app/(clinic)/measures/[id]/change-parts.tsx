import { Fragment } from "react"
import { changeRows } from "../../../../lib/figures/change-rows"
import { changeTitle } from "../../../../lib/figures/change-title"
import { keptRateWords } from "../../../../lib/figures/kept-rate-words"
import {
  rateLabel,
  type CauseCount,
  type FigureMonth,
  type MeasureFigure,
} from "../../../../lib/figures/measure-figure"
import type { ChangeKind } from "../../../../lib/domain/changes"
import { count, month as monthInFull, percent, percentInterval, points } from "../../../../lib/speech/format"
import { Button } from "../../../_ui/button"
import { PeopleLink } from "../../../_ui/people-link"
import { measureHref } from "../search-params"
import styles from "./change-parts.module.css"

/** The change since an earlier month, split exactly: the points of the four parts sum to the change, the people of the causes to each part. */
export function ChangeParts({ figure, month }: { figure: MeasureFigure; month: string | null }) {
  const { earlier } = figure
  if (!figure.change || !earlier || (figure.rate.total === 0 && earlier.rate.total === 0)) return null
  const { split } = figure.change
  const kept = keptRateWords(figure)
  const rows = changeRows(figure)
  const isShare = rows.some((row) => row.points !== null)
  const since = sinceParam(figure, earlier)
  const open = (part: { change: ChangeKind; cause?: CauseCount["cause"] }) =>
    measureHref(figure.measure.id, { month, since, ...part }, "people")
  return (
    <div className={styles.change}>
      <h3>{changeTitle(figure)}</h3>
      <table>
        <caption className="visually-hidden">
          The parts of the change and their causes, in people and points
        </caption>
        <tbody>
          {rows.map((row) => (
            <Fragment key={row.kind}>
              <tr>
                <td>
                  <PeopleLink number={row.people} href={open({ change: row.kind })}>
                    {count(row.people)}
                  </PeopleLink>
                </td>
                <th scope="row">{row.words}</th>
                <td>{row.points}</td>
              </tr>
              {row.causes.map(({ cause, people, words }) => (
                <tr key={cause} className={styles.cause}>
                  <td />
                  <th scope="row" colSpan={2}>
                    <PeopleLink number={people} href={open({ change: row.kind, cause })}>
                      {count(people)}
                    </PeopleLink>{" "}
                    {words}
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
