import { fewestForRate } from "../../figures/measure-figure"
import type { Rate, StandingCounts } from "../../statistics/rate"
import { share, whole } from "./cells"
import type { Column } from "./sheet"

type Counted = { counts: StandingCounts; rate: Rate }

/** Every count of a measure with its rate; where few people are counted the counts stand in place of percentages. */
export const countColumns: readonly Column<Counted>[] = [
  { head: "People asked", width: 10, cell: ({ counts }) => whole(counts.population) },
  { head: "Excluded", width: 10, cell: ({ counts }) => whole(counts.excluded) },
  { head: "Not measured", width: 10, cell: ({ counts }) => whole(counts.unknown) },
  { head: "Met", width: 10, cell: ({ counts }) => whole(counts.met) },
  { head: "Documented reason", width: 12, cell: ({ counts }) => whole(counts.exception) },
  { head: "Not met", width: 10, cell: ({ counts }) => whole(counts.notMet) },
  { head: "Counted", width: 10, cell: ({ rate }) => whole(rate.total) },
  { head: "Rate", width: 9, cell: ({ rate }) => share(isOfEnough(rate) ? rate.rate : null) },
  { head: "95% interval from", width: 11, cell: ({ rate }) => share(rate.interval?.low ?? null) },
  { head: "95% interval to", width: 11, cell: ({ rate }) => share(rate.interval?.high ?? null) },
  {
    head: "Of the measured",
    width: 11,
    cell: ({ rate }) => share(rate.measured < fewestForRate ? null : rate.ofMeasured),
  },
]

/** Whether enough people are counted for a rate to be told as a percentage. */
export function isOfEnough(rate: Rate): boolean {
  return rate.total >= fewestForRate
}
