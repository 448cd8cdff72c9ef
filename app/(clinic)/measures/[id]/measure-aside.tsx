import Link from "next/link"
import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { abruptStop } from "../../../../lib/measures/abrupt-stop"
import { followedAfterStopping } from "../../../../lib/measures/followed-after-stopping"
import { lowPressureOnDrugs } from "../../../../lib/measures/low-pressure-on-drugs"
import { untreatedAboveTarget } from "../../../../lib/measures/untreated-above-target"
import type { StartingGroupId } from "../../../../lib/questions/starting-and-stopping-groups"
import { startingHref } from "../../starting-and-stopping/search-params"
import { rasBlockerInAlbuminuria } from "../../../../lib/measures/ras-blocker-in-albuminuria"
import { dietSodiumWithinLimit } from "../../../../lib/measures/diet-sodium-within-limit"
import { uncontrolledOnSeveralClasses } from "../../../../lib/measures/uncontrolled-on-several-classes"
import type { WordedMeasure } from "../../../../lib/measures/types"
import { chosenMonthWords, type ChosenMonth } from "../../months"
import { OtherMonths } from "../../other-months"
import { protectionHref } from "../../protection/search-params"
import { severalClassesHref } from "../../several-classes/search-params"
import { SodiumLink } from "../../sodium/sodium-link"
import { measureHref } from "../search-params"
import styles from "./measure-aside.module.css"

/** The list of starting and stopping that names the people of a measure. */
const startingGroups: ReadonlyMap<string, StartingGroupId> = new Map([
  [untreatedAboveTarget.id, "above-target"],
  [lowPressureOnDrugs.id, "low"],
  [followedAfterStopping.id, "stopped"],
  [abruptStop.id, "stopped"],
])

/** Which measure and month this is, the parts of the page, and the other months. */
export function MeasureAside(props: {
  measure: WordedMeasure
  snapshot: SnapshotMeta
  chosen: ChosenMonth
  isPeopleShown: boolean
}) {
  const { measure, snapshot, chosen } = props
  const startingGroup = startingGroups.get(measure.id)
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
      {measure.id === uncontrolledOnSeveralClasses.id && props.isPeopleShown ? (
        <AsidePart>
          <Link href={severalClassesHref({ month: chosen.param })} prefetch={false}>
            Person by person, what to look at before another drug
          </Link>
        </AsidePart>
      ) : null}
      {measure.id === rasBlockerInAlbuminuria.id && props.isPeopleShown ? (
        <AsidePart>
          <Link href={protectionHref({ month: chosen.param })} prefetch={false}>
            Person by person, who takes none and why
          </Link>
        </AsidePart>
      ) : null}
      {measure.id === dietSodiumWithinLimit.id && props.isPeopleShown ? (
        <AsidePart>
          <SodiumLink month={chosen.param} />
        </AsidePart>
      ) : null}
      {startingGroup && props.isPeopleShown ? (
        <AsidePart>
          <Link href={startingHref({ month: chosen.param, group: startingGroup })} prefetch={false}>
            Person by person, with what to look at before starting or stopping
          </Link>
        </AsidePart>
      ) : null}
      <OtherMonths {...{ snapshot, chosen }} hrefOf={(one) => measureHref(measure.id, { month: one })} />
    </>
  )
}
