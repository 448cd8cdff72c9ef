import { count, counted, milligrams, monthShort, percentInterval } from "../../../lib/speech/format"
import { sentenceText } from "../../../lib/speech/sentence-text"
import type { DietSeries } from "../../../lib/figures/diet-figure"
import {
  fewestForRate,
  headlineOf,
  rateLabel,
  type FigureMonth,
  type MeasureFigure,
} from "../../../lib/figures/measure-figure"
import styles from "./tried-rows.module.css"
import { TriedChart } from "./tried-chart"
import { TriedPeople } from "./tried-people"
import type { TriedMeasure, TriedSeries } from "./what-if-figures"

/** A measure as it is and as it would be: both sentences, who would stand elsewhere, both lines. */
export function TriedMeasureRow({ tried }: { tried: TriedMeasure }) {
  const { now, then, moved, people } = tried
  const { name } = now.measure
  const labels = { now: `${rateLabel(now.rate)} now`, then: `${rateLabel(then.rate)} proposed` }
  return (
    <article className={styles.tried} aria-label={name}>
      <div>
        <p className={styles.name}>{name}</p>
        <p className={styles.would}>{saidOf(then)}</p>
        <p className={styles.interval}>{intervalOf(then)}</p>
        <p className={styles.today}>
          Now: {saidOf(now)} {intervalOf(now)}
        </p>
        <p className={styles.moved}>
          {moved === 0
            ? "Nobody would stand elsewhere today; earlier months change."
            : `${counted(moved, "person", "people")} would stand elsewhere today.`}
        </p>
        <TriedPeople now={now.measure} then={then.measure} people={people} moved={moved} />
      </div>
      <TriedChart
        now={{ label: labels.now, values: now.months.map(shareOf) }}
        then={{ label: labels.then, values: then.months.map(shareOf) }}
        first={monthShort(now.months[0]?.asOf ?? "")}
        last={monthShort(now.months.at(-1)?.asOf ?? "")}
        least={0.1}
        floor={0}
        ceiling={1}
        finding={`${name}: ${labels.now}, ${labels.then}.`}
        figures={{
          caption: `${name}, now and as proposed, by month`,
          columns: ["Month", "Now", "Met, of now", "Proposed", "Met, of proposed"],
          rows: now.months
            .map(({ asOf, rate }, place) => {
              const other = then.months[place]?.rate ?? rate
              return [monthShort(asOf), rateLabel(rate), ofWords(rate), rateLabel(other), ofWords(other)]
            })
            .toReversed(),
        }}
      />
    </article>
  )
}

/** A series of diet means as it is and as it would be. */
export function TriedSeriesRow({ tried: { now, then } }: { tried: TriedSeries }) {
  const name = `Mean daily sodium, ${now.name}`
  return (
    <article className={styles.tried} aria-label={name}>
      <div>
        <p className={styles.name}>{name}</p>
        <p className={styles.would}>{meanOf(then)} this month.</p>
        <p className={styles.today}>Now: {meanOf(now)}.</p>
      </div>
      <TriedChart
        now={{ label: `${meanOf(now)} now`, values: now.points.map((point) => point.meanMg) }}
        then={{ label: `${meanOf(then)} proposed`, values: then.points.map((point) => point.meanMg) }}
        first={monthShort(now.points[0]?.asOf ?? "")}
        last={monthShort(now.points.at(-1)?.asOf ?? "")}
        least={200}
        floor={0}
        finding={`${name}: ${meanOf(now)} now, ${meanOf(then)} proposed.`}
        figures={{
          caption: `${name}, now and as proposed, by month`,
          columns: ["Month", "Now", "People now", "Proposed", "People proposed"],
          rows: now.points
            .map((point, place) => {
              const other = then.points[place] ?? point
              return [
                monthShort(point.asOf),
                mg(point.meanMg),
                count(point.n),
                mg(other.meanMg),
                count(other.n),
              ]
            })
            .toReversed(),
        }}
      />
    </article>
  )
}

/** The share as it is drawn; of fewer than 20 counted it would go up and down with one person. */
function shareOf({ rate }: FigureMonth): number | null {
  return rate.total < fewestForRate ? null : rate.rate
}

function saidOf(figure: MeasureFigure): string {
  if (figure.rate.total === 0) return "No one to count."
  return sentenceText(headlineOf(figure), { ...figure.counts, total: figure.rate.total })
}

function intervalOf({ rate }: MeasureFigure): string {
  return rate.interval === null ? "" : `${rateLabel(rate)} (95% interval ${percentInterval(rate.interval)}).`
}

function ofWords(rate: { met: number; total: number }): string {
  return `${count(rate.met)}, ${count(rate.total)}`
}

function meanOf(series: DietSeries): string {
  return mg(series.now.meanMg)
}

function mg(mean: number | null): string {
  return mean === null ? "none" : milligrams(mean)
}
