import { count, percent, percentInterval, points } from "../../../../lib/speech/format"
import { PeopleLink } from "../../../_ui/people-link"
import { changeTitle } from "../../../../lib/figures/change-title"
import { MeasureChart } from "../../measure-chart"
import { fewestForRate, rateLabel, type MeasureFigure } from "../../../../lib/figures/measure-figure"
import type { PlacedNote } from "../../../../lib/figures/note-places"
import { MeasureSentence, MeasureStrip, RateLine } from "../../measure-row"
import { measureWords } from "../../../../lib/speech/measure-words"
import type { RasStartDays } from "../../../../lib/questions/ras-start-days"
import { roundedParts } from "../../../../lib/statistics/rounded-parts"
import { measureHref } from "../search-params"
import { InMonthHistory } from "./in-month-history"
import styles from "./measure-history.module.css"

/** The measure in full: its sentence, its line over all months, where people stand, and the parts of the change. */
export function MeasureHistory(props: {
  figure: MeasureFigure
  month: string | null
  startDays: RasStartDays | null
  notes: readonly PlacedNote[]
}) {
  const { figure, month, startDays, notes } = props
  return (
    <section className={styles.history} aria-label="History">
      <div className={styles.says}>
        <MeasureSentence figure={figure} month={month} size="head" level={2} />
        <RateLine figure={figure} month={month} />
        <Bounds figure={figure} />
        {startDays === null || startDays.median_days === null ? null : (
          <p className="soft">
            Of the {count(startDays.people)} checked, half had both results by day{" "}
            {count(startDays.median_days)}.
          </p>
        )}
      </div>
      <div className={styles.draws}>
        <MeasureChart figure={figure} size="full" notes={notes} />
        <p className="fine soft">
          Neighbouring months share people, so no run rules are applied to this line.
          {figure.inMonth ? null : " No single fact decides the measure, so no signals are judged."}
        </p>
        <div className={styles.strip}>
          <MeasureStrip figure={figure} month={month} />
        </div>
        {figure.inMonth ? <InMonthHistory figure={figure.inMonth} notes={notes} /> : null}
      </div>
      <ChangeParts figure={figure} month={month} />
    </section>
  )
}

/** How far the rate could lie from its estimate, whatever the unmeasured would have shown. */
function Bounds({ figure }: { figure: MeasureFigure }) {
  const { counts, rate, measure } = figure
  if (measure.direction === "down" || counts.unknown === 0 || rate.total < fewestForRate) return null
  return (
    <p className="soft">
      {percent(rate.measured / rate.total)} measured. Whatever the others would have shown, between{" "}
      {percent(counts.met / rate.total)} and {percent((counts.met + counts.unknown) / rate.total)}.
    </p>
  )
}

/** Points are shown to one decimal. */
const tenthOfPoint = 0.001

/** The change since the month before, split exactly: the points of the four parts sum to the change. */
function ChangeParts({ figure, month }: { figure: MeasureFigure; month: string | null }) {
  const earlier = figure.months[figure.chosen - 1]
  if (!figure.change || !earlier || (figure.rate.total === 0 && earlier.rate.total === 0)) return null
  const { counts, split } = figure.change
  const speech = measureWords(figure.measure)
  const isShare = split.ok && figure.rate.total >= fewestForRate && earlier.rate.total >= fewestForRate
  const shown = split.ok
    ? roundedParts([split.gained, split.lost, split.joined, split.left], tenthOfPoint)
    : []
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
        <caption className="visually-hidden">The parts of the change, in people and points</caption>
        <tbody>
          {parts.map((part, place) => (
            <tr key={part.kind}>
              <td>
                <PeopleLink
                  number={part.number}
                  href={measureHref(figure.measure.id, { month, change: part.kind }, "people")}
                >
                  {count(part.number)}
                </PeopleLink>
              </td>
              <th scope="row">{part.words}</th>
              <td>{isShare ? points(shown[place] ?? 0) : null}</td>
            </tr>
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
    </div>
  )
}
