import { fewestForMean } from "../../../lib/figures/diet-figure"
import { shareWords } from "../../../lib/figures/sodium-share-words"
import type { SodiumRatios } from "../../../lib/questions/sodium-ratios"
import { counted, sentenceCase } from "../../../lib/speech/format"
import { tInterval } from "../../../lib/statistics/t-interval"
import { Theme } from "../../_ui/screen"
import styles from "./sodium.module.css"

/** The molar ratio of sodium to potassium over those whose records have both, beside what is published, and why it is no target. */
export function SodiumRatio({ ratios, isClosed }: { ratios: SodiumRatios[]; isClosed: boolean }) {
  return (
    <Theme id="ratio" title="Sodium to potassium, molar (mmol to mmol)">
      {ratios.length === 0 ? (
        <p className={styles.none}>No one&rsquo;s records have both sodium and potassium.</p>
      ) : (
        <ul className={styles.lines}>
          {ratios.map((one) => (
            <li key={one.series}>
              {sentenceCase(one.series)}: <strong>{one.mean_ratio.toFixed(2)}</strong>
              {intervalWords(one)} on average in {counted(one.n, "person", "people")} whose records have both;
              below 1: {shareWords(one.below_1, one.n)}.
            </li>
          ))}
        </ul>
      )}
      <p className={styles.lead}>
        A molar ratio below 1 goes with meeting both of WHO&rsquo;s limits, less than 2,000 mg of sodium and
        at least 3,510 mg of potassium (24-hour urines of INTERSALT, PubMed 30996260). It is no target here:
        with CKD more potassium is not safe for everybody. By weight the ratio is 1.7 times smaller.
      </p>
      {isClosed ? (
        <p className={styles.lead}>
          This month is closed: sodium is as known then, but the ratio, the methods and the 24-hour urines are
          read from the records as they are today.
        </p>
      ) : null}
    </Theme>
  )
}

function intervalWords({ n, mean_ratio: mean, sd_ratio: sd }: SodiumRatios): string {
  const interval = n < fewestForMean ? null : tInterval({ n, mean, sd })
  return interval === null ? "" : ` (${interval.low.toFixed(2)} to ${interval.high.toFixed(2)})`
}
