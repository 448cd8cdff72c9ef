import { drawnRates } from "../../../../lib/figures/drawn-rates"
import type { InMonthFigure } from "../../../../lib/figures/in-month-figure"
import type { PlacedNote } from "../../../../lib/figures/note-places"
import { ratesFootnote, signalSentence } from "../../../../lib/figures/signal-words"
import { rateLabel } from "../../../../lib/figures/measure-figure"
import { inMonthName } from "../../../../lib/speech/fact-words"
import { monthShort, percent } from "../../../../lib/speech/format"
import { Figures } from "../../../_ui/figures"
import { HistoryChart } from "../../../_ui/history-chart"
import { inMonthTable } from "../../measure-table"
import styles from "./in-month-history.module.css"

/** The series on which signals are judged, under the rolling one and over the same months, with what the rules find. */
export function InMonthHistory(props: { figure: InMonthFigure; notes: readonly PlacedNote[] }) {
  const { figure, notes } = props
  const { points, rates, chosen, judgement, baseline } = figure
  const name = inMonthName(figure.measure.fact)
  const sentence = signalSentence(figure, figure.measure.direction)
  const now = rates[chosen]
  const drawn = drawnRates(figure)
  return (
    <section className={styles.inMonth} aria-label={name}>
      <h3>{name}</h3>
      <p>{sentence}</p>
      {drawn.every((rate) => rate === null) ? (
        <Figures table={inMonthTable(figure)} />
      ) : (
        <HistoryChart
          points={points.map(({ asOf }, place) => ({
            label: monthShort(asOf),
            value: drawn[place] ?? null,
            low: null,
            high: null,
          }))}
          chosen={chosen}
          chosenLabel={now ? rateLabel(now) : ""}
          baseline={
            judgement.ok
              ? {
                  ...{ value: judgement.median, label: percent(judgement.median) },
                  ...{ from: baseline.from, through: chosen },
                }
              : null
          }
          notes={notes}
          bounds={judgement.ok ? points : []}
          least={0.1}
          floor={0}
          ceiling={1}
          size="under"
          drawn="dots"
          tick={percent}
          finding={`${figure.measure.name}, ${name.toLowerCase()}. ${sentence}`}
          figures={inMonthTable(figure)}
        />
      )}
      {judgement.ok ? <p className="fine soft">{ratesFootnote(figure)}</p> : null}
    </section>
  )
}
