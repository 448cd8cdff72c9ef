import Link from "next/link"
import { fewestForMean } from "../../../lib/figures/diet-figure"
import type { SodiumEffect as Effect } from "../../../lib/questions/sodium-effects"
import { counted, milligrams, sentenceCase } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { effectSource, fallWords } from "../diet-part-words"
import styles from "./sodium.module.css"

/** What less sodium did to pressure in trials, for 1,000 mg and for the way of those above the limit to it; for conversation. */
export function SodiumEffect({ effects, limitMg }: { effects: Effect[]; limitMg: number }) {
  const each = effects.find(({ series }) => series === null)
  const ways = effects.filter(({ series }) => series !== null)
  return (
    <Theme
      id="effect"
      title="Less sodium and pressure, in trials"
      note="Population average, for conversation"
    >
      <ul className={styles.lines}>
        {each === undefined ? null : (
          <li>
            <strong>{sentenceCase(rangeWords(each))} less systolic</strong> for each{" "}
            {milligrams(each.above_mg ?? 0)} of sodium less a day.
          </li>
        )}
        {ways.map((way) => (
          <li key={way.series}>
            {sentenceCase(way.series ?? "")}: {counted(way.n, "person", "people")} above the limit of{" "}
            {milligrams(limitMg)}
            {way.n < fewestForMean
              ? "; too few for an average."
              : `, by ${milligrams(way.above_mg ?? 0)} on average: ${rangeWords(way)} less systolic at the limit.`}
          </li>
        ))}
      </ul>
      <p className={styles.lead}>
        An average of groups in trials, short ones among them; it says nothing of one person, and nothing of
        this clinic. Who has a low pressure, is pregnant or in palliative care is left out. {effectSource}{" "}
        <Link href="/sodium/products" prefetch={false}>
          Supplements and herbal products of concern
        </Link>
        .
      </p>
    </Theme>
  )
}

function rangeWords({ fall_least: least, fall_most: most }: Effect): string {
  return least === null || most === null ? "not known" : fallWords({ least, most })
}
