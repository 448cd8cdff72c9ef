import Link from "next/link"
import { month, monthName, monthShort } from "../../lib/speech/format"
import styles from "./month-list.module.css"

export type MonthChoice = { month: string; href: string; isRunning: boolean; isClosed: boolean }

const shownAtOnce = 6

/** The months a screen can show, latest first: the last half year at once, the others one key away. */
export function MonthList({ choices, chosen }: { choices: MonthChoice[]; chosen: string }) {
  const latest = choices.slice(0, shownAtOnce)
  const earlier = choices.slice(shownAtOnce)
  const years = [...new Set(earlier.map((choice) => choice.month.slice(0, 4)))]
  return (
    <nav aria-label="Months" className={styles.months}>
      <ol className={styles.latest}>
        {latest.map((choice) => (
          <li key={choice.month}>
            <MonthLink choice={choice} chosen={chosen} words={monthName(choice.month)} />
            <span className={styles.state}>{stateOf(choice, latest)}</span>
          </li>
        ))}
      </ol>
      {earlier.length === 0 ? null : (
        <details open={earlier.some((choice) => choice.month === chosen)}>
          <summary>Earlier months</summary>
          {years.map((year) => (
            <div key={year} className={styles.year}>
              <span>{year}</span>
              <ol>
                {earlier
                  .filter((choice) => choice.month.startsWith(year))
                  .reverse()
                  .map((choice) => (
                    <li key={choice.month}>
                      <MonthLink
                        choice={choice}
                        chosen={chosen}
                        words={monthName(choice.month).slice(0, 3)}
                        name={monthShort(choice.month)}
                      />
                    </li>
                  ))}
              </ol>
            </div>
          ))}
        </details>
      )}
    </nav>
  )
}

/** A month as it stands in its list; its name by itself begins with the same words, so that it can be spoken as seen. */
function MonthLink(props: { choice: MonthChoice; chosen: string; words: string; name?: string }) {
  const { choice } = props
  return (
    <Link
      href={choice.href}
      prefetch={false}
      aria-current={choice.month === props.chosen ? "date" : undefined}
      aria-label={`${props.name ?? month(choice.month)}${choice.isClosed ? ", closed" : ""}`}
      title={`${month(choice.month)}${choice.isClosed ? ", closed" : ""}`}
    >
      {props.words}
    </Link>
  )
}

/** What stands beside a month: that it runs, that it was closed, and the year where it begins. */
function stateOf(choice: MonthChoice, latest: MonthChoice[]): string {
  const words = [choice.isRunning ? "running" : yearMark(choice, latest), choice.isClosed ? "closed" : ""]
  return words.filter((word) => word !== "").join(", ")
}

/** The year beside the first month of it, so that a list across new year reads without counting. */
function yearMark(choice: MonthChoice, latest: MonthChoice[]): string {
  const year = choice.month.slice(0, 4)
  const firstOfYear = latest.find((other) => other.month.startsWith(year) && !other.isRunning)
  return firstOfYear === choice ? year : ""
}
