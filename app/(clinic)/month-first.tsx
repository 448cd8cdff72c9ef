import Link from "next/link"
import type { Attention, ReasonPart } from "../../lib/figures/attention"
import { fewestForRate } from "../../lib/figures/measure-figure"
import { PeopleLink } from "../_ui/people-link"
import { Theme } from "../_ui/screen"
import { measureHref, standingParam } from "./measures/search-params"
import styles from "./month-first.module.css"

/** More than these do not come first. */
const mostFirst = 5

/** What wants attention first this month: at most five measures, each with its reason. */
export function MonthFirst({ attention, month }: { attention: readonly Attention[]; month: string | null }) {
  return (
    <Theme id="first" title="First this month">
      {attention.length === 0 ? (
        <p>
          No measure stands out this month: no safety measure finds anyone, no series shows an unfavourable
          signal, no change for the worse is larger than chance, and nowhere are a third or more not measured.
          Fewer than {fewestForRate} counted are no finding.
        </p>
      ) : (
        <>
          <ol className={styles.reasons}>
            {attention.slice(0, mostFirst).map(({ figure, parts }) => (
              <li key={figure.measure.id}>
                <Link href={measureHref(figure.measure.id, { month })} prefetch={false}>
                  {figure.measure.name}
                </Link>
                :{" "}
                {parts.map((part) => (
                  <Part key={part.words} part={part} id={figure.measure.id} month={month} />
                ))}
                .
              </li>
            ))}
          </ol>
          <p className={`soft fine ${styles.basis}`}>
            In this order: people a safety measure finds, unfavourable signals, changes for the worse larger
            than chance (exact McNemar test, all measures of the month judged together), many not measured.
            Fewer than {fewestForRate} counted are no finding. Clinicians decide; local policy applies.
          </p>
        </>
      )}
    </Theme>
  )
}

function Part({ part, id, month }: { part: ReasonPart; id: string; month: string | null }) {
  const { words, opens } = part
  if (!opens) return <>{words}</>
  const { people, standing, change = null } = opens
  const href = measureHref(
    id,
    { month, change, standing: standing ? standingParam(standing) : null },
    "people",
  )
  return (
    <PeopleLink number={people} href={href}>
      {words}
    </PeopleLink>
  )
}
