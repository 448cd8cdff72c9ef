import {
  count,
  counted,
  listed,
  milligramInterval,
  milligrams,
  month as monthInFull,
} from "../../lib/speech/format"
import { PeopleLink } from "../_ui/people-link"
import { dietSodium } from "../../lib/measures/diet-sodium"
import { pairedTitle, pairedWords, toldInterval, type DietFigure } from "../../lib/figures/diet-figure"
import { wouldBeMeanWords } from "../../lib/figures/would-be-words"
import type { DietMonth } from "../../lib/questions/diet-months"
import type { DietChangeWords } from "../../lib/figures/diet-change-words"
import { measureHref } from "./measures/search-params"
import sentence from "../_ui/sentence.module.css"
import styles from "./measure-row.module.css"

/** The lines drawn with the mean, each with its number. */
export const dietLimits = dietSodium.limits.map((limit) => ({ value: limit.mg, label: count(limit.mg) }))

/** The mean of the headline series as a sentence, its interval and people, and the other series beside it. */
export function DietWords(props: { figure: DietFigure; month: string | null; level: 2 | 3 }) {
  const { figure, month } = props
  const { now } = figure.headline
  const interval = toldInterval(now)
  const open = measureHref(dietSodium.id, { month }, "people")
  const others = figure.series.filter((one) => one !== figure.headline && one.now.meanMg !== null)
  const Heading = props.level === 2 ? "h2" : "h3"
  return (
    <>
      <Heading className={sentence.head}>
        {now.meanMg === null ? (
          `No one brought counted days in ${monthInFull(now.asOf)}.`
        ) : (
          <>
            {now.n === 1 ? "The one person who brought counted days" : "People who brought counted days"} ate{" "}
            <strong className={sentence.number}>
              <PeopleLink href={open} number={now.n}>
                {milligrams(now.meanMg)}
              </PeopleLink>
            </strong>{" "}
            of sodium a day on average.
          </>
        )}
      </Heading>
      <p className={styles.rate}>
        {interval ? <span>{milligramInterval(interval)}</span> : null}
        {now.n > 0 ? (
          <span>
            <PeopleLink href={open} number={now.n}>
              {counted(now.n, "person", "people")}
            </PeopleLink>{" "}
            this month
          </span>
        ) : null}
        {others.length > 0 ? (
          <span>Kept apart: {listed(others.map((one) => `${one.name} ${seriesMean(one.now)}`))}.</span>
        ) : null}
      </p>
    </>
  )
}

/** The change in the same people, since the earlier month with who was asked, and what the dashed lines are. */
export function DietChange(props: {
  figure: DietFigure
  since: DietChangeWords | null
  /** What today's facts and settings make of a closed month; null of another. */
  today: readonly DietMonth[] | null
  size: "full" | "short"
}) {
  const { figure, since, today, size } = props
  const { paired } = figure.headline
  const wouldBe = today === null ? null : wouldBeMeanWords(figure.headline, today)
  return (
    <>
      {paired ? (
        <>
          <p className={styles.change}>{pairedTitle(paired)}</p>
          <p>
            {counted(paired.n, "person", "people")} with a record 3 to 15 months before: {pairedWords(paired)}
            .
          </p>
        </>
      ) : (
        <p className="soft">No one with an earlier record to compare with.</p>
      )}
      {since ? <p>{since.same}</p> : null}
      {since?.asked && size === "full" ? <p>{since.asked}</p> : null}
      {wouldBe ? <p>{wouldBe}.</p> : null}
      <details className="fine soft">
        <summary>The dashed lines</summary>
        <ul>
          {dietSodium.limits.map((limit) => (
            <li key={limit.mg}>
              {milligrams(limit.mg)}: {limit.source}
            </li>
          ))}
        </ul>
      </details>
    </>
  )
}

function seriesMean(now: { n: number; meanMg: number | null }): string {
  return `${now.meanMg === null ? "" : milligrams(now.meanMg)} (${counted(now.n, "person", "people")})`
}
