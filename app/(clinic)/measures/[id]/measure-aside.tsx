import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import type { WordedMeasure } from "../../../../lib/measures/types"
import { chosenMonthWords, type ChosenMonth } from "../../months"
import { OtherMonths } from "../../other-months"
import { measureHref } from "../search-params"
import { MeasureReview } from "./measure-review"
import styles from "./measure-aside.module.css"

/** Which measure and month this is, the parts of the page, the review of its people, and the other months. */
export function MeasureAside(props: {
  measure: WordedMeasure
  snapshot: SnapshotMeta
  chosen: ChosenMonth
  isPeopleShown: boolean
}) {
  const { measure, snapshot, chosen } = props
  return (
    <>
      <ScreenTitle title={measure.name} size="small">
        <p className={styles.question}>{measure.question}</p>
        <p>{chosenMonthWords(chosen)}</p>
      </ScreenTitle>
      <AsidePart>
        <nav aria-label="On this page" className={styles.places}>
          <a href="#decided">How it is decided</a>
          <a href="#people">People</a>
          <a href="#groups">Groups</a>
          <a href="#months">Every month</a>
        </nav>
      </AsidePart>
      {props.isPeopleShown ? <MeasureReview measureId={measure.id} month={chosen.param} /> : null}
      <OtherMonths {...{ snapshot, chosen }} hrefOf={(one) => measureHref(measure.id, { month: one })} />
    </>
  )
}
