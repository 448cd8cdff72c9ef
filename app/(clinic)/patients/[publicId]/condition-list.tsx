import type { ConditionRow } from "./condition-rows"
import { Phrases } from "./phrases"
import styles from "./standings.module.css"

const partWords = {
  population: "Asked of people with",
  excluded: "Left out when",
  unknown: "Not known when",
  met: "Met when",
  exception: "Documented reason",
} as const

/** Every condition of a measure in the order in which it is tried, whether it holds, and the facts behind it. */
export function ConditionList({ rows, source }: { rows: readonly ConditionRow[]; source: string }) {
  return (
    <details className={styles.conditions}>
      <summary>Every condition</summary>
      <ol>
        {rows.map((row) => (
          <li key={`${row.part} ${row.words}`}>
            <span className={row.holds ? styles.holds : styles.fails}>{row.holds ? "holds" : "no"}</span>
            <div>
              <p>
                {partWords[row.part]}: {row.words}
              </p>
              <Phrases phrases={row.phrases} isValueShown />
            </div>
          </li>
        ))}
      </ol>
      <p className={styles.source}>{source}.</p>
    </details>
  )
}
