import Link from "next/link"
import type { First, FirstPart } from "../../lib/figures/first-lines"
import { fewestForRate } from "../../lib/figures/measure-figure"
import { counted } from "../../lib/speech/format"
import { PeopleLink } from "../_ui/people-link"
import { Theme } from "../_ui/screen"
import { measureHref, standingParam } from "./measures/search-params"
import styles from "./month-first.module.css"

/** What wants attention first this month, each with its reason in words and the way to it. */
export function MonthFirst({ first, month }: { first: First; month: string | null }) {
  const { lines, further } = first
  return (
    <Theme id="first" title="First this month">
      {lines.length === 0 ? (
        <p>
          Nothing stands out this month: no safety measure finds anyone, no action of earlier months is open,
          no series shows an unfavourable signal, no change for the worse is larger than chance, and nowhere
          are a third or more not measured. Fewer than {fewestForRate} counted are no finding.
        </p>
      ) : (
        <>
          <ol className={styles.reasons}>
            {lines.map(({ id, parts }) => (
              <li key={id}>
                {parts.map((part, place) => (
                  <Part key={place} part={part} month={month} />
                ))}
                .
              </li>
            ))}
          </ol>
          <p className={`soft fine ${styles.basis}`}>
            {further === 0
              ? null
              : `${counted(further, "further measure stands", "further measures stand")} out, first in their themes. `}
            In this order: people a safety measure finds, open actions, unfavourable signals, changes for the
            worse larger than chance (exact McNemar test, all measures of the month judged together), many not
            measured. Fewer than {fewestForRate} counted are no finding. Clinicians decide; local policy
            applies.
          </p>
        </>
      )}
    </Theme>
  )
}

function Part({ part: { words, leads }, month }: { part: FirstPart; month: string | null }) {
  if (leads === null) return <>{words}</>
  const { measureId, to, people, standing, change = null } = leads
  if (to === "people") {
    const shown = standing ? standingParam(standing) : null
    return (
      <PeopleLink number={people} href={measureHref(measureId, { month, change, standing: shown }, "people")}>
        {words}
      </PeopleLink>
    )
  }
  const href = measureHref(measureId, { month })
  return (
    <Link href={to === "actions" ? `${href}#actions` : href} prefetch={false}>
      {words}
    </Link>
  )
}
