import { count, counted, listed, milligramInterval, milligrams, month as monthInFull } from "../_ui/format"
import { HistoryChart } from "../_ui/history-chart"
import { PeopleLink } from "../_ui/people-link"
import { dietSodium } from "../../lib/measures/diet-sodium"
import { dietFinding, dietPoints, pairedTitle, pairedWords, type DietFigure } from "./diet-figure"
import { dietTable } from "./measure-table"
import { measureHref } from "./measures/search-params"
import sentence from "../_ui/sentence.module.css"
import styles from "./measure-row.module.css"

/** The mean sodium of the month in the headline series, with its limits, and the change in the same people. */
export function DietRow({ figure, month }: { figure: DietFigure; month: string | null }) {
  const { headline } = figure
  const { now, paired } = headline
  const open = (series: string | null) => measureHref(dietSodium.id, { month, series }, "people")
  const hasHistory = headline.points.some((point) => point.meanMg !== null)
  const others = figure.series.filter((one) => one !== headline && one.now.n > 0)
  return (
    <article className={styles.row}>
      <div className={styles.says}>
        <h3 className={sentence.head}>
          {now.meanMg === null ? (
            `No one brought counted days in ${monthInFull(now.asOf)}.`
          ) : (
            <>
              People who brought counted days ate{" "}
              <strong className={sentence.number}>
                <PeopleLink href={open(null)} number={now.n}>
                  {milligrams(now.meanMg)}
                </PeopleLink>
              </strong>{" "}
              of sodium a day on average.
            </>
          )}
        </h3>
        <p className={styles.rate}>
          {now.interval ? <span>{milligramInterval(now.interval)}</span> : null}
          {now.n > 0 ? (
            <span>
              <PeopleLink href={open(null)} number={now.n}>
                {counted(now.n, "person", "people")}
              </PeopleLink>{" "}
              this month
            </span>
          ) : null}
        </p>
        {others.length > 0 ? (
          <p className={styles.rate}>
            <span>Kept apart: {listed(others.map((one) => `${one.name} ${seriesMean(one.now)}`))}.</span>
          </p>
        ) : null}
      </div>
      <div className={styles.draws}>
        {hasHistory ? (
          <HistoryChart
            points={dietPoints(headline)}
            chosen={figure.chosen}
            chosenLabel={now.meanMg === null ? "" : milligrams(now.meanMg)}
            baseline={
              headline.baselineMg === null
                ? null
                : { value: headline.baselineMg, label: milligrams(headline.baselineMg) }
            }
            limits={dietSodium.limits.map((limit) => ({ value: limit.mg, label: count(limit.mg) }))}
            least={400}
            floor={0}
            size="tall"
            finding={dietFinding(headline)}
            figures={dietTable(headline)}
          />
        ) : null}
      </div>
      <div className={styles.tells}>
        {paired ? (
          <>
            <p className={styles.change}>{pairedTitle(paired)}</p>
            <p>
              {counted(paired.n, "person", "people")} with a record 3 to 15 months before:{" "}
              {pairedWords(paired)}.
            </p>
          </>
        ) : (
          <p className="soft">No one with an earlier record to compare with.</p>
        )}
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
      </div>
    </article>
  )
}

function seriesMean(now: { n: number; meanMg: number | null }): string {
  return `${now.meanMg === null ? "" : milligrams(now.meanMg)} (${counted(now.n, "person", "people")})`
}
