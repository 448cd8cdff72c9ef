import type { z } from "zod"
import type { Settings } from "../domain/settings"
import { monthReport, type MonthReport } from "../figures/month-report"
import { measures } from "../measures/index"
import { dietMonths } from "../questions/diet-months"
import { detailCounts } from "../questions/measure-details"
import { measureGroups, type GroupCounts } from "../questions/measure-groups"
import { measureMonths } from "../questions/measure-months"
import { panelCounts, type PanelCounts } from "../questions/panel-counts"
import { standingChanges } from "../questions/standing-changes"

/** Asks the snapshot as far as whoever wants the document may see it. */
export type Ask = <Row>(
  question: { readonly sql: string; readonly Row: z.ZodType<Row> },
  params?: Record<string, string | number | boolean | null>,
) => Promise<Row[]>

/** What a snapshot says of itself, as far as a document needs it. */
export type Snapshot = {
  clinicName: string
  isDemo: boolean
  isWholeClinic: boolean
  builtAt: string
  timeZone: string
  settings: Settings
  asOfs: readonly string[]
  runningAsOf: string
}

const nobody: PanelCounts = {
  in_panel: 0,
  ckd_before_replacement: 0,
  without_pressure: 0,
  without_urine_albumin: 0,
  without_diet_record: 0,
  kidney_unknown: 0,
}

/** Everything the documents of a month say, asked at once; `asOf` is one of the snapshot's dates. */
export async function askMonthReport(
  ask: Ask,
  { snapshot, asOf }: { snapshot: Snapshot; asOf: string },
): Promise<MonthReport> {
  const asOfs = snapshot.asOfs.filter((day) => day <= asOf)
  const earlier = asOfs.at(-2)
  const day = { as_of: asOf }
  const [panel, months, moves, details, diet, groups] = await Promise.all([
    ask(panelCounts, day),
    ask(measureMonths),
    earlier ? ask(standingChanges, { ...day, earlier_as_of: earlier }) : [],
    ask(detailCounts, day),
    ask(dietMonths),
    Promise.all(
      measures.map(async (measure): Promise<[string, GroupCounts[]]> => [
        measure.id,
        await ask(measureGroups(measure), day),
      ]),
    ),
  ])
  const { clinicName, isDemo, isWholeClinic, builtAt, timeZone, settings } = snapshot
  return monthReport(
    {
      ...{ clinicName, isDemo, isWholeClinic, builtAt, timeZone, settings, asOf, asOfs },
      month: asOf.slice(0, 7),
      isRunning: asOf === snapshot.runningAsOf,
    },
    {
      panel: panel[0] ?? nobody,
      ...{ months, moves, details, diet },
      groupsByMeasure: new Map(groups),
    },
  )
}
