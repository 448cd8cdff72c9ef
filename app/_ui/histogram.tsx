import { placed } from "./placed"
import styles from "./histogram.module.css"

export type HistogramBar = { from: number; number: number }

/** How many lie where, as bars of one width on a scale from 0, with lines at given values. The figures stand beside it as a table. */
export function Histogram(props: {
  bars: readonly HistogramBar[]
  width: number
  most: number
  lines: readonly { value: number; label: string }[]
  ends: { low: string; high: string }
  finding: string
}) {
  const { bars, width, most } = props
  const highest = Math.max(1, ...bars.map((bar) => bar.number))
  return (
    <figure className={styles.histogram}>
      <div className={styles.plot} role="img" aria-label={props.finding}>
        <svg
          viewBox={`0 0 ${most} ${highest}`}
          preserveAspectRatio="none"
          aria-hidden="true"
          focusable="false"
        >
          {bars.map((bar) => (
            <rect
              key={bar.from}
              x={bar.from + width * 0.06}
              y={highest - bar.number}
              width={width * 0.88}
              height={bar.number}
            />
          ))}
        </svg>
        {props.lines.map((line, place) => (
          <span
            key={line.label}
            className={place < 2 ? styles.line : `${styles.line} ${styles.lower}`}
            {...placed({ left: `${(line.value / most) * 100}%` })}
          >
            <span className={place === 0 ? styles.after : styles.before}>{line.label}</span>
          </span>
        ))}
      </div>
      <div className={styles.foot} aria-hidden="true">
        <span>{props.ends.low}</span>
        <span>{props.ends.high}</span>
      </div>
    </figure>
  )
}
