import { dayOfYear, listed, month, sentenceCase } from "../../../_ui/format"
import { MonthList } from "../../../_ui/month-list"
import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import type { SnapshotMeta } from "../../../../lib/engine/run"
import type { Condition, WordedMeasure } from "../../../../lib/measures/types"
import { monthChoices, type ChosenMonth } from "../../months"
import { measureHref } from "../search-params"
import styles from "./measure-aside.module.css"

/** Which measure and month this is, the parts of the page, and the other months. */
export function MeasureAside(props: { measure: WordedMeasure; snapshot: SnapshotMeta; chosen: ChosenMonth }) {
  const { measure, snapshot, chosen } = props
  return (
    <>
      <ScreenTitle title={measure.name} size="small">
        {month(chosen.month)},{" "}
        {chosen.isRunning ? `running, data through ${dayOfYear(chosen.asOf)}` : "complete"}.
      </ScreenTitle>
      <AsidePart>
        <nav aria-label="On this page" className={styles.places}>
          <a href="#people">People</a>
          <a href="#groups">Groups</a>
          <a href="#months">Every month</a>
          <a href="#conditions">How it counts</a>
        </nav>
      </AsidePart>
      <AsidePart>
        <MonthList
          choices={monthChoices(snapshot, (one) => measureHref(measure.id, { month: one }))}
          chosen={chosen.month}
        />
      </AsidePart>
    </>
  )
}

/** How the measure counts, in the words of its conditions, and where it comes from. */
export function MeasureConditions({ measure }: { measure: WordedMeasure }) {
  return (
    <AsidePart>
      <dl className={styles.conditions} id="conditions">
        <Conditions title="Counts" words={[listed(wordsOf(measure.population))]} />
        <Conditions title="Leaves out" words={wordsOf(measure.excluded)} />
        <Conditions title="Not measured when" words={wordsOf(measure.unknown)} />
        <Conditions
          title={measure.direction === "up" ? "Met when" : "Present when"}
          words={[measure.met.words]}
        />
        <Conditions title="Documented reasons" words={wordsOf(measure.exception)} />
        <dt>Rate</dt>
        <dd>
          {measure.direction === "up"
            ? "More is better. Whoever is not measured counts against the clinic; documented reasons leave the denominator."
            : "Fewer is better. The rate is of the measured; the unmeasured stand beside it."}
        </dd>
        <dt>Source</dt>
        <dd className={styles.source}>{measure.source}</dd>
      </dl>
    </AsidePart>
  )
}

function Conditions({ title, words }: { title: string; words: string[] }) {
  if (words.length === 0) return null
  return (
    <>
      <dt>{title}</dt>
      {words.map((word) => (
        <dd key={word} className={styles.condition}>
          {sentenceCase(word)}
        </dd>
      ))}
    </>
  )
}

function wordsOf(conditions: readonly Condition[]): string[] {
  return conditions.map((condition) => condition.words)
}
