import { defaultSettings } from "../../lib/domain/settings"
import type { MonthRecord } from "../../lib/domain/month-record"
import {
  monthReport,
  type MonthReport,
  type ReportedMonth,
  type ReportRows,
} from "../../lib/figures/month-report"
import { measures } from "../../lib/measures/index"
import type { MeasureMonth } from "../../lib/questions/measure-months"

const threeMonths = ["2026-08-31", "2026-09-30", "2026-10-31"]

/** A month of which nobody wrote anything. */
export const nothingWritten: MonthRecord = { notes: [], baselines: new Map(), actions: [], closing: null }

type Counts = Pick<MeasureMonth, "excluded" | "unknown" | "met" | "exception" | "not_met">

/** A report of October 2026 in which every measure has the same counts in each month; three of them, if no others are named. */
export function reportOf(
  counts: Counts,
  rows: Partial<ReportRows> = {},
  about: Partial<ReportedMonth> = {},
): MonthReport {
  const asOfs = about.asOfs ?? threeMonths
  const population = counts.excluded + counts.unknown + counts.met + counts.exception + counts.not_met
  const isAnyone = population > 0
  return monthReport(
    {
      ...{ clinicName: "Northgate kidney clinic", isDemo: false, isWholeClinic: true, isRunning: false },
      ...{ month: "2026-10", asOf: "2026-10-31", builtAt: "2026-11-02T06:10:00.000Z", timeZone: "UTC" },
      ...{ settings: defaultSettings, closed: null, ...about, asOfs },
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
      ...{ inMonth: [], dietChange: null, today: [], record: nothingWritten },
      ...rows,
    },
  )
}
