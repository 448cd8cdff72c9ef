import Link from "next/link"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { uncontrolledOnSeveralClasses } from "../../../lib/measures/uncontrolled-on-several-classes"
import { severalClassesFindings } from "../../../lib/questions/several-classes-findings"
import { count, numbered } from "../../../lib/speech/format"
import { CountList } from "../../_ui/count-list"
import { AsidePart } from "../../_ui/screen"
import { measureHref } from "../measures/search-params"
import type { ChosenMonth } from "../months"
import { OtherMonths } from "../other-months"
import { ReviewHead } from "../review-head"
import { reviews } from "../reviews"
import { severalClassesHref, type SeveralClassesView } from "./search-params"
import type { SeveralClassesAnswers } from "./several-classes-answers"

type AsideProps = {
  answers: SeveralClassesAnswers
  view: SeveralClassesView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}

/** Whom the screen lists and when, how many are found with what, and the other months. */
export function SeveralClassesAside({ answers, view, chosen, snapshot }: AsideProps) {
  const { counts } = answers
  return (
    <>
      <ReviewHead review={reviews.severalClasses} chosen={chosen}>
        Above target on {count(snapshot.settings["drugs.several"])} or more classes of pressure drugs: what to
        look at before another drug.
      </ReviewHead>
      <AsidePart>
        <CountList
          rows={[
            {
              number: counts.people,
              words: counts.severe === 0 ? "in all" : `in all, ${numbered(counts.severe, "severe")}`,
              href: severalClassesHref({ month: view.month }),
            },
            ...severalClassesFindings.map((finding, place) => ({
              number: counts.found[place] ?? 0,
              words: finding.words,
              href: severalClassesHref({ month: view.month, finding: finding.id }),
            })),
          ]}
        />
      </AsidePart>
      <AsidePart>
        <p>
          <Link href={measureHref(uncontrolledOnSeveralClasses.id, { month: chosen.param })} prefetch={false}>
            How it is decided, and every month
          </Link>
        </p>
      </AsidePart>
      <OtherMonths
        {...{ snapshot, chosen }}
        hrefOf={(one) => severalClassesHref({ ...view, month: one, page: null })}
      />
    </>
  )
}
