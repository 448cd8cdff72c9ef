import { count } from "../../lib/speech/format"
import { PeopleLink } from "./people-link"
import styles from "./count-list.module.css"

export type CountRow = { number: number; words: string; href: string | null }

/** Counts with their words, figures aligned, each opening its people. */
export function CountList({ rows }: { rows: CountRow[] }) {
  return (
    <ul className={styles.counts}>
      {rows.map((row) => (
        <li key={row.words}>
          <strong>
            {row.href === null ? (
              <span>{count(row.number)}</span>
            ) : (
              <PeopleLink href={row.href} number={row.number}>
                {count(row.number)}
              </PeopleLink>
            )}
          </strong>{" "}
          <span>{row.words}</span>
        </li>
      ))}
    </ul>
  )
}
