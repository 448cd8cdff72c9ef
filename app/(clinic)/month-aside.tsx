import type { Caller } from "../../lib/access/caller"
import { CountList } from "../_ui/count-list"
import { dayOfYear, dayInFull, instant, month } from "../../lib/speech/format"
import { hrefOf } from "../_ui/href"
import { AsidePart, ScreenTitle } from "../_ui/screen"
import { withSettings } from "../../lib/domain/setting-words"
import type { SnapshotMeta } from "../../lib/engine/snapshot-meta"
import type { PanelCounts } from "../../lib/questions/panel-counts"
import { MonthClosing } from "./month-closing"
import type { ChosenMonth } from "./months"
import { OtherMonths } from "./other-months"
import { monthHref } from "./search-params"

/** Which month this is, how far its data go, what the clinic does not know of its people, and the other months. */
export function MonthAside(props: {
  caller: Caller
  snapshot: SnapshotMeta
  chosen: ChosenMonth
  counts: PanelCounts
}) {
  const { caller, snapshot, chosen, counts } = props
  const people = (params: Record<string, string>) => hrefOf("/patients", { month: chosen.param, ...params })
  return (
    <>
      <ScreenTitle title={month(chosen.month)}>
        {chosen.isRunning
          ? `Running. Data through ${dayOfYear(chosen.asOf)}, computed ${instant(snapshot.builtAt, snapshot.timeZone)}.`
          : `Complete, as it stands at ${dayInFull(chosen.asOf)}. Computed ${instant(snapshot.builtAt, snapshot.timeZone)}.`}
      </ScreenTitle>
      <AsidePart>
        <MonthClosing caller={caller} snapshot={snapshot} chosen={chosen} />
      </AsidePart>
      <AsidePart>
        <CountList
          rows={[
            { number: counts.in_panel, words: "in the panel", href: people({}) },
            {
              number: counts.ckd_before_replacement,
              words: "with CKD, not on dialysis or transplanted",
              href: people({ kidney: "ckd" }),
            },
            {
              number: counts.without_pressure,
              words: withSettings("with no pressure in {bp.windowMonths} months", snapshot.settings),
              href: people({ missing: "pressure" }),
            },
            {
              number: counts.without_urine_albumin,
              words: "with no urine albumin in 12 months",
              href: people({ missing: "urine" }),
            },
            {
              number: counts.without_diet_record,
              words: "with no diet record in 12 months",
              href: people({ missing: "diet" }),
            },
            {
              number: counts.kidney_unknown,
              words: "whose kidney status is not known",
              href: people({ missing: "kidney" }),
            },
          ]}
        />
      </AsidePart>
      <OtherMonths {...{ snapshot, chosen }} hrefOf={(one) => monthHref({ month: one })} />
    </>
  )
}
