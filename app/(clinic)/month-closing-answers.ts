import { cache } from "react"
import { ask } from "../_http/ask"
import { lastDayOfMonth } from "../../lib/domain/plain-date"
import { settingKeys } from "../../lib/domain/setting-values"
import type { SettingKey } from "../../lib/domain/settings"
import type { ShownClosing, SnapshotMeta } from "../../lib/engine/snapshot-meta"
import { dietMonthsToday, type DietMonth } from "../../lib/questions/diet-months"
import { monthsToday, type MonthToday } from "../../lib/questions/months-today"
import { store } from "../../lib/store/client"
import { listClosings, type MonthClosing } from "../../lib/store/month-closings"
import type { ChosenMonth } from "./months"
import { currentSnapshot } from "./snapshot"

export type MonthClosingAnswers = {
  /** Whether the month is over, and so can be closed. */
  isComplete: boolean
  /** Every closing of the month, the latest first. */
  closings: MonthClosing[]
  /** The closing in force. */
  inForce: MonthClosing | null
  /** The closing as the figures on the screen have it; null while they are computed. */
  shown: ShownClosing | null
  /** The settings that were others then. */
  otherSettings: SettingKey[]
}

const closings = cache(() => listClosings(store()))

/** What is on record of the closing of a month, and whether the figures on the screen follow it yet. */
export async function askMonthClosing(
  snapshot: SnapshotMeta,
  chosen: ChosenMonth,
): Promise<MonthClosingAnswers> {
  const own = (await closings()).filter((one) => one.asOf === chosen.asOf)
  const inForce = own.find((one) => one.reopenedAt === null) ?? null
  const settings = (await currentSnapshot())?.settings ?? snapshot.settings
  const shown = snapshot.closed.find((one) => one.asOf === chosen.asOf) ?? null
  return {
    isComplete: chosen.asOf === lastDayOfMonth(chosen.month) && chosen.asOf <= snapshot.today,
    closings: own,
    inForce,
    shown: shown?.closingId === inForce?.id ? shown : null,
    otherSettings: settingKeys.filter((key) => inForce !== null && inForce.settings[key] !== settings[key]),
  }
}

/** The counts that today's facts and settings give of a closed month, by measure; nothing of a month that is not closed. */
export async function askMonthToday(asOf: string): Promise<ReadonlyMap<string, MonthToday>> {
  const rows = await ask(monthsToday, { as_of: asOf })
  return new Map(rows.map((row) => [row.measure_id, row]))
}

/** The means that today's facts and settings give of a closed month; null of a month that is not closed. */
export async function askDietToday(snapshot: SnapshotMeta, asOf: string): Promise<DietMonth[] | null> {
  if (!snapshot.closed.some((one) => one.asOf === asOf)) return null
  return ask(dietMonthsToday, { as_of: asOf })
}
