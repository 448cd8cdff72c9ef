import Link from "next/link"
import { abruptStop } from "../../../../lib/measures/abrupt-stop"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import { dietSodiumWithinLimit } from "../../../../lib/measures/diet-sodium-within-limit"
import { followedAfterStopping } from "../../../../lib/measures/followed-after-stopping"
import { lowPressureOnDrugs } from "../../../../lib/measures/low-pressure-on-drugs"
import { rasBlockerInAlbuminuria } from "../../../../lib/measures/ras-blocker-in-albuminuria"
import { uncontrolledOnSeveralClasses } from "../../../../lib/measures/uncontrolled-on-several-classes"
import { untreatedAboveTarget } from "../../../../lib/measures/untreated-above-target"
import type { StartingGroupId } from "../../../../lib/questions/starting-and-stopping-groups"
import { AsidePart } from "../../../_ui/screen"
import { protectionHref } from "../../protection/search-params"
import { severalClassesHref } from "../../several-classes/search-params"
import { sodiumHref } from "../../sodium/search-params"
import { startingHref } from "../../starting-and-stopping/search-params"

type Way = { words: string; hrefOf: (month: string | null) => string }

const sodium: Way = { words: "Is it falling, and for whom", hrefOf: (month) => sodiumHref({ month }) }

const starting = (group: StartingGroupId): Way => ({
  words: "Person by person, with what to look at before starting or stopping",
  hrefOf: (month) => startingHref({ month, group }),
})

const ways: ReadonlyMap<string, Way> = new Map([
  [
    uncontrolledOnSeveralClasses.id,
    {
      words: "Person by person, what to look at before another drug",
      hrefOf: (month: string | null) => severalClassesHref({ month }),
    },
  ],
  [
    rasBlockerInAlbuminuria.id,
    {
      words: "Person by person, who takes none and why",
      hrefOf: (month: string | null) => protectionHref({ month }),
    },
  ],
  [dietSodium.id, sodium],
  [dietSodiumWithinLimit.id, sodium],
  [untreatedAboveTarget.id, starting("above-target")],
  [lowPressureOnDrugs.id, starting("low")],
  [followedAfterStopping.id, starting("stopped")],
  [abruptStop.id, starting("stopped")],
])

/** The way from a measure to the review that goes through its people, in the month that is chosen; nothing where there is none. */
export function MeasureReview({ measureId, month }: { measureId: string; month: string | null }) {
  const way = ways.get(measureId)
  if (!way) return null
  return (
    <AsidePart>
      <Link href={way.hrefOf(month)} prefetch={false}>
        {way.words}
      </Link>
    </AsidePart>
  )
}
