import { signalPhrase, type Judged } from "../../lib/figures/signal-words"
import styles from "./measure-row.module.css"

/** What a judged series signals, in one line beneath the small chart; nothing without a signal. */
export function SignalPhrase({ judged, series }: { judged: Judged; series: string }) {
  const phrase = signalPhrase(judged, series)
  return phrase === null ? null : <p className={styles.signal}>{phrase}</p>
}
