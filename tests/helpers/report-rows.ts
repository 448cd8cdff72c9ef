import { defaultSettings } from "../../lib/domain/settings"
import { monthReport, type MonthReport, type ReportRows } from "../../lib/figures/month-report"
import { measures } from "../../lib/measures/index"
import type { MeasureMonth } from "../../lib/questions/measure-months"

const asOfs = ["2026-08-31", "2026-09-30", "2026-10-31"]

type Counts = Pick<MeasureMonth, "excluded" | "unknown" | "met" | "exception" | "not_met">

/** A report of October 2026 in which every measure has the same counts in each of three months. */
export function reportOf(counts: Counts, rows: Partial<ReportRows> = {}): MonthReport {
  const population = counts.excluded + counts.unknown + counts.met + counts.exception + counts.not_met
  const isAnyone = population > 0
  return monthReport(
    {
      ...{ clinicName: "Northgate kidney clinic", isDemo: false, isWholeClinic: true, isRunning: false },
      ...{ month: "2026-10", asOf: "2026-10-31", builtAt: "2026-11-02T06:10:00.000Z", timeZone: "UTC" },
      ...{ settings: defaultSettings, asOfs },
    },
    {
      panel: {
        ...{ in_panel: population, ckd_before_replacement: population, without_pressure: counts.unknown },
        ...{ without_urine_albumin: 0, without_diet_record: 0, kidney_unknown: 0 },
      },
      months: isAnyone
        ? measures.flatMap((measure) =>
            asOfs.map((as_of) => ({ measure_id: measure.id, as_of, population, ...counts })),
          )
        : [],
      ...{ moves: [], details: [], diet: [], groupsByMeasure: new Map() },
      ...rows,
    },
  )
}
