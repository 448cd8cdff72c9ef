import { dietSodium } from "../../../../lib/measures/diet-sodium"
import type { MeasureView } from "../search-params"

/** The series whose records are listed: the one asked for, or the headline series. */
export function shownSeries(view: MeasureView): string {
  return dietSodium.series.find((name) => name === view.series) ?? dietSodium.headlineSeries
}
