import Link from "next/link"
import { count } from "./format"
import styles from "./facet-list.module.css"

export type FacetChoice = { words: string; number: number; href: string; isChosen: boolean }

/** One way to divide a list: each part with its count, the chosen ones in ink. A second press lets go. */
export function FacetList({ title, choices }: { title: string; choices: FacetChoice[] }) {
  return (
    <section className={styles.facet}>
      <h2>{title}</h2>
      <ul>
        {choices.map((choice) => (
          <li key={choice.words}>
            <Link
              href={choice.href}
              prefetch={false}
              scroll={false}
              aria-current={choice.isChosen ? "true" : undefined}
            >
              <span>{choice.words}</span>
              <span>{count(choice.number)}</span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}
