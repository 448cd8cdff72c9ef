import type { InMonthFigure } from "../../lib/figures/in-month-figure"
import { signalPhrase } from "../../lib/figures/signal-words"
import styles from "./measure-row.module.css"

/** What the readings of the month only signal, in one line beneath the small chart; nothing without a signal. */
export function SignalPhrase({ inMonth }: { inMonth: InMonthFigure | null }) {
  const phrase = inMonth ? signalPhrase(inMonth) : null
  return phrase === null ? null : <p className={styles.signal}>{phrase}</p>
}
