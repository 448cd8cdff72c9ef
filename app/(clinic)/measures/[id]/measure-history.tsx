import { count, percent } from "../../../../lib/speech/format"
import { MeasureChart } from "../../measure-chart"
import { fewestForRate, type MeasureFigure } from "../../../../lib/figures/measure-figure"
import type { PlacedNote } from "../../../../lib/figures/note-places"
import { MeasureSentence, MeasureStrip, RateLine } from "../../measure-row"
import type { RasStartDays } from "../../../../lib/questions/ras-start-days"
import { ChangeParts } from "./change-parts"
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
