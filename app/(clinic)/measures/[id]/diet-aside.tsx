import { listed, milligrams, sentenceCase } from "../../../../lib/speech/format"
import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import { chosenMonthWords, type ChosenMonth } from "../../months"
import { OtherMonths } from "../../other-months"
import { measureHref } from "../search-params"
import { MeasureReview } from "./measure-review"
import styles from "./measure-aside.module.css"

/** Which month this is, and the other months. */
export function DietAside(props: { snapshot: SnapshotMeta; chosen: ChosenMonth; isPeopleShown: boolean }) {
  const { snapshot, chosen } = props
  return (
    <>
      <ScreenTitle title={dietSodium.name} size="small">
        {chosenMonthWords(chosen)}
      </ScreenTitle>
      {props.isPeopleShown ? <MeasureReview measureId={dietSodium.id} month={chosen.param} /> : null}
      <OtherMonths {...{ snapshot, chosen }} hrefOf={(one) => measureHref(dietSodium.id, { month: one })} />
    </>
  )
}

/** How the mean is taken, and where the lines come from. */
export function DietConditions() {
  return (
    <AsidePart>
      <dl className={styles.conditions}>
        <dt>Counts</dt>
        <dd>Everyone in the panel with a record of the month; each weighs one</dd>
        <dt>Ways of asking</dt>
        <dd>{sentenceCase(listed(dietSodium.series))}; never mixed in one mean</dd>
        <dt>Change in the same people</dt>
        <dd>Their mean this month less their mean in the months 15 to 3 before, of one series</dd>
        <dt>Not counted</dt>
        <dd>Estimates from a spot urine; they stand on the patient&rsquo;s page only</dd>
        <dt>Interval</dt>
        <dd>95% by Student&rsquo;s t; of one person none</dd>
        {dietSodium.limits.map((limit) => (
          <Limit key={limit.mg} mg={limit.mg} source={limit.source} />
        ))}
      </dl>
    </AsidePart>
  )
}

function Limit({ mg, source }: { mg: number; source: string }) {
  return (
    <>
      <dt>The line at {milligrams(mg)}</dt>
      <dd className={styles.source}>{source}</dd>
    </>
  )
}
