import type { ChartNote, ChosenBaseline } from "./chart-marks"
import type { MeasureAction } from "./measure-actions"

/** What people put on record of a month and its measures, beside what is computed. */
export type MonthRecord = {
  /** Notes on the charts by day, those of one measure and those of all. */
  notes: readonly ChartNote[]
  /** The year that somebody set as a measure's baseline. */
  baselines: ReadonlyMap<string, ChosenBaseline>
  /** Decisions and actions of the meetings up to the month, the open first. */
  actions: readonly MeasureAction[]
  /** The closing in force; null for a month that is open. */
  closing: { id: number; closedBy: string; closedAt: Date; note: string } | null
}
