import type { DietSignals } from "../../lib/figures/diet-signals"
import { DietChart } from "./diet-chart"
import type { DietMonth } from "../../lib/questions/diet-months"
import type { DietChangeWords } from "../../lib/figures/diet-change-words"
import type { DietFigure } from "../../lib/figures/diet-figure"
import { DietChange, DietWords } from "./diet-words"
import { SignalPhrase } from "./signal-phrase"
import styles from "./measure-row.module.css"

/** The mean sodium of the month in the headline series, with its limits, and the change in the same people. */
export function DietRow(props: {
  figure: DietFigure
  month: string | null
  signals: DietSignals
  since: DietChangeWords | null
  today: readonly DietMonth[] | null
}) {
  const { figure, month, signals, since, today } = props
  return (
    <article className={styles.row}>
      <div className={styles.says}>
        <DietWords figure={figure} month={month} level={3} />
      </div>
      <div className={styles.draws}>
        <DietChart series={figure.headline} chosen={figure.chosen} size="tall" signals={signals} />
        <SignalPhrase judged={signals} series="records of each month" />
      </div>
      <div className={styles.tells}>
        <DietChange figure={figure} since={since} today={today} size="short" />
      </div>
    </article>
  )
}
