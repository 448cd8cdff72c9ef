import Link from "next/link"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { rasBlockerInAlbuminuria } from "../../../lib/measures/ras-blocker-in-albuminuria"
import { protectionGroups } from "../../../lib/questions/protection-groups"
import { numbered } from "../../../lib/speech/format"
import { CountList } from "../../_ui/count-list"
import { AsidePart } from "../../_ui/screen"
import { measureHref } from "../measures/search-params"
import type { ChosenMonth } from "../months"
import { OtherMonths } from "../other-months"
import { ReviewHead } from "../review-head"
import { reviews } from "../reviews"
import type { ProtectionAnswers } from "./protection-answers"
import { protectionHref, type ProtectionView } from "./search-params"

type AsideProps = {
  answers: ProtectionAnswers
  view: ProtectionView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}

/** Whom the screen lists and when, how many are in which group and who is left out, and the other months. */
export function ProtectionAside({ answers, view, chosen, snapshot }: AsideProps) {
  const { counts, panel } = answers
  const { month: at, whose } = view
  return (
    <>
      <ReviewHead review={reviews.protection} chosen={chosen}>
        Albuminuria and no ACE inhibitor or ARB: who, and is there a good reason?
      </ReviewHead>
      {panel.isOffered ? <Whose view={view} isOwn={panel.isShown} /> : null}
      <AsidePart>
        <CountList
          rows={[
            { number: counts.people, words: "in all", href: protectionHref({ month: at, whose }) },
            ...protectionGroups.map(({ id, words }, place) => ({
              number: counts.grouped[place] ?? 0,
              words,
              href: protectionHref({ month: at, whose, group: id }),
            })),
          ]}
        />
      </AsidePart>
      <AsidePart>
        <p>{leftOutWords(counts)}</p>
      </AsidePart>
      <AsidePart>
        <p>
          <Link href={measureHref(rasBlockerInAlbuminuria.id, { month: chosen.param })} prefetch={false}>
            How it is decided, and every month
          </Link>
        </p>
        <p>Those raised once are no part of that measure.</p>
      </AsidePart>
      <OtherMonths
        {...{ snapshot, chosen }}
        hrefOf={(one) => protectionHref({ ...view, month: one, page: null })}
      />
    </>
  )
}

function Whose({ view, isOwn }: { view: ProtectionView; isOwn: boolean }) {
  const { month: at, group } = view
  return (
    <AsidePart>
      <p>
        {isOwn ? "Your patients. " : "Everybody you may see. "}
        <Link href={protectionHref({ month: at, group, whose: isOwn ? "everybody" : null })} prefetch={false}>
          {isOwn ? "Show everybody’s" : "Show your patients alone"}
        </Link>
      </p>
    </AsidePart>
  )
}

/** Who has confirmed albuminuria and is not listed: "Not listed: 41 take one; 3 on dialysis, 2 transplant." */
function leftOutWords(counts: ProtectionAnswers["counts"]): string {
  const excluded = rasBlockerInAlbuminuria.excluded.flatMap(({ words }, place) => {
    const number = counts.excluded[place] ?? 0
    return number === 0 ? [] : [numbered(number, words)]
  })
  const taking = `${numbered(counts.met, counts.met === 1 ? "takes" : "take")} one`
  return `Not listed, with confirmed albuminuria: ${[taking, ...excluded].join("; ")}.`
}
