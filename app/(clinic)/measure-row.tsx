import type { ReactNode } from "react"
import { numbered, percent, percentInterval } from "../../lib/speech/format"
import { Figures } from "../_ui/figures"
import { PeopleLink } from "../_ui/people-link"
import { Sentence } from "../_ui/sentence"
import { sentenceText } from "../../lib/speech/sentence-text"
import { StandingStrip } from "../_ui/standing-strip"
import { MeasureChart } from "./measure-chart"
import { fewestForRate, headlineOf, type MeasureFigure } from "../../lib/figures/measure-figure"
import { standingParts } from "../../lib/figures/standing-parts"
import { MeasureChangeWords } from "./measure-change"
import { rateTable } from "./measure-table"
import { measureWords } from "../../lib/speech/measure-words"
import { measureHref, standingParam, type ListedStanding } from "./measures/search-params"
import styles from "./measure-row.module.css"

/** One measure in one month: the sentence and its rate, the line and where people stand, and why it changed. */
export function MeasureRow(props: {
  figure: MeasureFigure
  month: string | null
  size?: "full" | "short"
  children?: ReactNode
}) {
  const { figure, size = "full" } = props
  return (
    <article className={size === "short" ? `${styles.row} ${styles.short}` : styles.row}>
      <div className={styles.says}>
        <MeasureSentence figure={figure} month={props.month} size={size === "full" ? "head" : "short"} />
        <RateLine figure={figure} month={props.month} />
      </div>
      <div className={styles.draws}>
        {figure.rate.rate === null ? null : (
          <MeasureChart figure={figure} size={size === "full" ? "row" : "short"} />
        )}
        <div className={styles.strip}>
          <MeasureStrip figure={figure} month={props.month} />
        </div>
      </div>
      <div className={styles.tells}>
        <MeasureChangeWords figure={figure} month={props.month} size={size} />
        {props.children}
        {size === "short" && figure.rate.rate !== null ? <Figures table={rateTable(figure)} /> : null}
      </div>
    </article>
  )
}

/** The measure's sentence with its live numbers; where nobody is counted it says so. */
export function MeasureSentence(props: {
  figure: MeasureFigure
  month: string | null
  size: "head" | "short"
  level?: 2 | 3
}) {
  const { figure } = props
  if (figure.rate.total === 0) {
    return <Sentence template={`${figure.measure.name}: no one to count.`} numbers={{}} {...props} />
  }
  const open = (standing: ListedStanding) => standingHref(figure, props.month, standing)
  return (
    <Sentence
      template={headlineOf(figure)}
      numbers={{
        met: { number: figure.counts.met, href: open("met") },
        notMet: { number: figure.counts.notMet, href: open("not met") },
        unknown: { number: figure.counts.unknown, href: open("unknown") },
        total: { number: figure.rate.total, href: open("counted") },
      }}
      {...props}
    />
  )
}

/** The rate with its interval, the share of the measured, and who was not measured. */
export function RateLine({ figure, month }: { figure: MeasureFigure; month: string | null }) {
  const { rate, counts, measure } = figure
  const speech = measureWords(measure)
  const isUp = measure.direction === "up"
  return (
    <p className={styles.rate}>
      {rate.rate === null || rate.interval === null ? (
        <span>No one in the panel is counted by it this month.</span>
      ) : rate.total < fewestForRate ? (
        <span>Too few for a percentage; 95% interval {percentInterval(rate.interval)}%.</span>
      ) : (
        <span>
          {percent(rate.rate)} ({percentInterval(rate.interval)}){" "}
          {sentenceText(speech.rateOf, { ...counts, total: rate.total })}
        </span>
      )}
      {isUp && counts.unknown > 0 && rate.ofMeasured !== null && rate.measured >= fewestForRate ? (
        <span>{percent(rate.ofMeasured)} of the measured</span>
      ) : null}
      {counts.exception > 0 ? (
        <span>
          <PeopleLink href={standingHref(figure, month, "exception")} number={counts.exception}>
            {numbered(counts.exception, `more with a ${speech.exception}`)}
          </PeopleLink>
        </span>
      ) : null}
      {counts.unknown > 0 ? (
        <span>
          <PeopleLink href={standingHref(figure, month, "unknown")} number={counts.unknown}>
            {numbered(counts.unknown, speech.unknown)}
          </PeopleLink>
        </span>
      ) : null}
      {rate.total === 0 && counts.excluded > 0 ? (
        <span>
          <PeopleLink href={standingHref(figure, month, "excluded")} number={counts.excluded}>
            {numbered(counts.excluded, "excluded")}
          </PeopleLink>
        </span>
      ) : null}
    </p>
  )
}

/** Where the people of the measure stand; the order is always the same. */
export function MeasureStrip({ figure, month }: { figure: MeasureFigure; month: string | null }) {
  return (
    <StandingStrip
      parts={standingParts(figure).map(({ standing, words, number, look }) => ({
        ...{ words, number, look },
        href: standingHref(figure, month, standing),
      }))}
    />
  )
}

export function standingHref(figure: MeasureFigure, month: string | null, standing: ListedStanding): string {
  return measureHref(figure.measure.id, { month, standing: standingParam(standing) }, "people")
}
