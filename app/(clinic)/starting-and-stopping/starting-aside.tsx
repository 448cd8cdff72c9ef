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
import { dayOfYear, month } from "../../../lib/speech/format"
import { CountList } from "../../_ui/count-list"
import { MonthList } from "../../_ui/month-list"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import { measureHref } from "../measures/search-params"
import { monthChoices, type ChosenMonth } from "../months"
import { ReviewLinks } from "../review-links"
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
      <ScreenTitle title="Starting and stopping" size="small">
        <p>Who may need a pressure drug, who may need fewer, and who stopped one.</p>
        <p>
          {month(chosen.month)},{" "}
          {chosen.isRunning ? `running, data through ${dayOfYear(chosen.asOf)}` : "complete"}.
        </p>
      </ScreenTitle>
      <AsidePart>
        <ReviewLinks open="/starting-and-stopping" month={chosen.param} />
      </AsidePart>
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
      <AsidePart>
        <MonthList
          choices={monthChoices(snapshot, (one) => startingHref({ ...view, month: one, page: null }))}
          chosen={chosen.month}
        />
      </AsidePart>
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
