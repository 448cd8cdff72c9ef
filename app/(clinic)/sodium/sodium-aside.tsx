import Link from "next/link"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { dietSodium } from "../../../lib/measures/diet-sodium"
import { dietSodiumWithinLimit } from "../../../lib/measures/diet-sodium-within-limit"
import { count, counted } from "../../../lib/speech/format"
import { CountList } from "../../_ui/count-list"
import { AsidePart } from "../../_ui/screen"
import { measureHref } from "../measures/search-params"
import type { ChosenMonth } from "../months"
import { OtherMonths } from "../other-months"
import { ReviewHead } from "../review-head"
import { reviews } from "../reviews"
import { sodiumHref, type SodiumView } from "./search-params"
import type { SodiumAnswers } from "./sodium-answers"
import { sodiumLists } from "./sodium-lists"

/** What the screen asks and when, how many are on which list, and the other months. */
export function SodiumAside(props: {
  answers: SodiumAnswers
  view: SodiumView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}) {
  const { answers, view, chosen, snapshot } = props
  const { counts } = answers
  return (
    <>
      <ReviewHead review={reviews.sodium} chosen={chosen}>
        Is the clinic&rsquo;s sodium falling, and for whom?
      </ReviewHead>
      <AsidePart>
        <CountList
          rows={sodiumLists.map(({ param, words, count: name }) => ({
            number: counts[name],
            words,
            href: sodiumHref({ month: view.month, list: param }, "people"),
          }))}
        />
        <p className="fine soft">
          {count(counts.assessed)} of {counted(counts.counted, "person", "people")} with CKD assessed in 12
          months.
        </p>
      </AsidePart>
      <AsidePart>
        <p>
          <Link href={measureHref(dietSodium.id, { month: chosen.param })} prefetch={false}>
            The mean: signals and records of the month
          </Link>
        </p>
        <p>
          <Link href={measureHref(dietSodiumWithinLimit.id, { month: chosen.param })} prefetch={false}>
            Within the limit, every month
          </Link>
        </p>
      </AsidePart>
      <OtherMonths
        {...{ snapshot, chosen }}
        hrefOf={(one) => sodiumHref({ ...view, month: one, page: null })}
      />
    </>
  )
}
