import type { SnapshotMeta } from "../../lib/engine/snapshot-meta"
import { MonthList } from "../_ui/month-list"
import { AsidePart } from "../_ui/screen"
import { monthChoices, type ChosenMonth } from "./months"

/** The ways to the same screen in other months; `hrefOf` takes a month, null for the running one. */
export function OtherMonths(props: {
  snapshot: SnapshotMeta
  chosen: ChosenMonth
  hrefOf: (month: string | null) => string
}) {
  return (
    <AsidePart>
      <MonthList choices={monthChoices(props.snapshot, props.hrefOf)} chosen={props.chosen.month} />
    </AsidePart>
  )
}
