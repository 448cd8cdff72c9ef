import Link from "next/link"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { rasBlockerInAlbuminuria } from "../../../lib/measures/ras-blocker-in-albuminuria"
import { protectionGroups } from "../../../lib/questions/protection-groups"
import { dayOfYear, month, numbered } from "../../../lib/speech/format"
import { CountList } from "../../_ui/count-list"
import { MonthList } from "../../_ui/month-list"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import { measureHref } from "../measures/search-params"
import { monthChoices, type ChosenMonth } from "../months"
import { ReviewLinks } from "../review-links"
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
      <ScreenTitle title="Protection" size="small">
        <p>Albuminuria and no ACE inhibitor or ARB: who, and is there a good reason?</p>
        <p>
          {month(chosen.month)},{" "}
          {chosen.isRunning ? `running, data through ${dayOfYear(chosen.asOf)}` : "complete"}.
        </p>
      </ScreenTitle>
      <AsidePart>
        <ReviewLinks open="/protection" month={chosen.param} />
      </AsidePart>
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
      <AsidePart>
        <MonthList
          choices={monthChoices(snapshot, (one) => protectionHref({ ...view, month: one, page: null }))}
          chosen={chosen.month}
        />
      </AsidePart>
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
