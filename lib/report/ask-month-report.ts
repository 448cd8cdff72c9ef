import type { z } from "zod"
import type { MonthRecord } from "../domain/month-record"
import type { Settings } from "../domain/settings"
import { settingsThen } from "../domain/settings-then"
import { monthReport, type MonthReport } from "../figures/month-report"
import { dietSodium } from "../measures/diet-sodium"
import { measures } from "../measures/index"
import { dietChange } from "../questions/diet-change"
import { dietMonths } from "../questions/diet-months"
import { detailCounts } from "../questions/measure-details"
import { measureGroups, type GroupCounts } from "../questions/measure-groups"
import { measureInMonth } from "../questions/measure-in-month"
import { measureMonths } from "../questions/measure-months"
import { monthsToday } from "../questions/months-today"
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
  /** The months shown as they were known when they were closed, with the settings of then. */
  closed: readonly {
    asOf: string
    closingId: number
    settings: Settings
    isReproduced: boolean
    isOfTheseDefinitions: boolean
  }[]
}

const nobody: PanelCounts = {
  in_panel: 0,
  ckd_before_replacement: 0,
  without_pressure: 0,
  without_urine_albumin: 0,
  without_diet_record: 0,
  kidney_unknown: 0,
}

/** Everything the documents of a month say, asked at once; `asOf` is one of the snapshot's dates, `record` what people wrote of it. */
export async function askMonthReport(
  ask: Ask,
  about: { snapshot: Snapshot; asOf: string; record: MonthRecord },
): Promise<MonthReport> {
  const { snapshot, asOf, record } = about
  const asOfs = snapshot.asOfs.filter((day) => day <= asOf)
  const earlier = asOfs.at(-2)
  const day = { as_of: asOf }
  const [panel, months, inMonth, moves, details, diet, dietSums, today, groups] = await Promise.all([
    ask(panelCounts, day),
    ask(measureMonths),
    ask(measureInMonth),
    earlier ? ask(standingChanges, { ...day, earlier_as_of: earlier }) : [],
    ask(detailCounts, day),
    ask(dietMonths),
    earlier ? ask(dietChange, { ...day, earlier_as_of: earlier, series: dietSodium.headlineSeries }) : [],
    ask(monthsToday, day),
    Promise.all(
      measures.map(async (measure): Promise<[string, GroupCounts[]]> => [
        measure.id,
        await ask(measureGroups(measure), day),
      ]),
    ),
  ])
  const { clinicName, isDemo, isWholeClinic, builtAt, timeZone } = snapshot
  const closed = snapshot.closed.find((one) => one.asOf === asOf) ?? null
  const [sums] = dietSums
  return monthReport(
    {
      ...{ clinicName, isDemo, isWholeClinic, builtAt, timeZone, asOf, asOfs },
      settings: settingsThen(snapshot, asOf),
      closed: closed?.closingId === record.closing?.id ? closed : null,
      month: asOf.slice(0, 7),
      isRunning: asOf === snapshot.runningAsOf,
    },
    {
      panel: panel[0] ?? nobody,
      ...{ months, inMonth, moves, details, diet, today, record },
      dietChange: sums && sums.earlier_n + sums.later_n > 0 ? sums : null,
      groupsByMeasure: new Map(groups),
    },
  )
}
