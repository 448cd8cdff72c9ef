import Link from "next/link"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { abruptStop } from "../../../lib/measures/abrupt-stop"
import { followedAfterStopping } from "../../../lib/measures/followed-after-stopping"
import { lowPressureOnDrugs } from "../../../lib/measures/low-pressure-on-drugs"
import type { Measure } from "../../../lib/measures/types"
import { untreatedAboveTarget } from "../../../lib/measures/untreated-above-target"
import {
  startingFindings,
  startingGroups,
  type StartingGroupId,
} from "../../../lib/questions/starting-and-stopping-groups"
import { CountList } from "../../_ui/count-list"
import { AsidePart } from "../../_ui/screen"
import { measureHref } from "../measures/search-params"
import type { ChosenMonth } from "../months"
import { OtherMonths } from "../other-months"
import { ReviewHead } from "../review-head"
import { reviews } from "../reviews"
import { startingHref, type StartingView } from "./search-params"
import type { StartingAnswers } from "./starting-answers"

type AsideProps = {
  answers: StartingAnswers
  view: StartingView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}

const measuresOf: Readonly<Record<StartingGroupId, readonly Measure[]>> = {
  "above-target": [untreatedAboveTarget],
  "lifestyle-first": [untreatedAboveTarget],
  low: [lowPressureOnDrugs],
  stopped: [followedAfterStopping, abruptStop],
}

/** The four lists and when, how many of the chosen one are found with what, and the other months. */
export function StartingAside({ answers, view, chosen, snapshot }: AsideProps) {
  return (
    <>
      <ReviewHead review={reviews.startingAndStopping} chosen={chosen}>
        Who may need a pressure drug, who may need fewer, and who stopped one.
      </ReviewHead>
      <AsidePart title="Lists">
        <CountList
          rows={startingGroups.map(({ id, words }, place) => ({
            number: answers.counts.groups[place] ?? 0,
            words,
            href: startingHref({ month: view.month, group: id }),
          }))}
        />
      </AsidePart>
      <AsidePart title="Of this list">
        <CountList rows={findingRows({ answers, view })} />
      </AsidePart>
      <AsidePart>
        <p>How it is decided, and every month:</p>
        <ul>
          {measuresOf[view.group].map(({ id, name }) => (
            <li key={id}>
              <Link href={measureHref(id, { month: chosen.param })} prefetch={false}>
                {name}
              </Link>
            </li>
          ))}
        </ul>
      </AsidePart>
      <OtherMonths
        {...{ snapshot, chosen }}
        hrefOf={(one) => startingHref({ ...view, month: one, page: null })}
      />
    </>
  )
}

function findingRows({ answers, view }: Pick<AsideProps, "answers" | "view">) {
  return startingFindings.flatMap(({ id, words, group }, place) => {
    if (group !== view.group) return []
    const href = startingHref({ month: view.month, group, finding: id })
    return [{ number: answers.counts.found[place] ?? 0, words, href }]
  })
}
