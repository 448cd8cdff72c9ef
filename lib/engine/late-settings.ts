import "server-only"
import type { SettingKey } from "../domain/settings"
import type { Measure } from "../measures/types"
import { measures } from "../measures/index"
import { targetSettings } from "../measures/setting-groups"

/**
 * The settings that are held late against what is stored, by the select of lib/clinical/tried that does it, in order, and the
 * columns that it makes anew.
 */
export const lateSteps = [
  {
    name: "tried_pressures",
    reads: "tried_rows",
    settings: ["bp.windowMonths", "bp.freshDays"],
    columns: ["systolic", "diastolic", "bp_source", "bp_on"],
  },
  {
    name: "tried_targets",
    reads: "tried_pressures",
    settings: [...targetSettings, "bp.lowSystolic"],
    columns: ["at_target", "quarter_ago_at_target", "is_pressure_low_lately"],
  },
] as const satisfies readonly {
  name: string
  reads: string
  settings: readonly SettingKey[]
  columns: readonly string[]
}[]

/** The settings that conditions alone name, over values that are stored. */
const conditionSettings: readonly SettingKey[] = ["drugs.several", "diet.limitMg"]

/** Whether there are such settings and all of them can be tried on what is stored, without any view of the facts. */
export function areLate(changed: readonly SettingKey[]): boolean {
  const late = new Set<SettingKey>([...conditionSettings, ...lateSteps.flatMap((step) => step.settings)])
  return changed.length > 0 && changed.every((key) => late.has(key))
}

type Step = (typeof lateSteps)[number]

/** The steps that have to be taken for these settings: the first that names one of them, and all after it. */
export function stepsTaken(changed: readonly SettingKey[]): readonly Step[] {
  const first = lateSteps.findIndex(({ settings }) => settings.some((key) => changed.includes(key)))
  return first === -1 ? [] : lateSteps.slice(first)
}

/** Tells of a question of a measure whether its answer can be another one under these settings. */
export function askedAgain(changed: readonly SettingKey[]): (question: string) => boolean {
  const columns = stepsTaken(changed).flatMap((step) => step.columns)
  const named = [
    ...columns.map((column) => new RegExp(`\\bp\\.${column}\\b`)),
    ...paramNames(changed).map((name) => new RegExp(`\\$${name}\\b`)),
  ]
  return (question) => named.some((name) => name.test(question))
}

/** The measures whose standings can change. */
export function touchedBy(changed: readonly SettingKey[]): readonly Measure[] {
  return measures.filter((measure) => measure.settings.some((key) => changed.includes(key)))
}

function paramNames(changed: readonly SettingKey[]): string[] {
  return measures.flatMap(({ params }) =>
    Object.entries(params).flatMap(([name, key]) => (changed.includes(key) ? [name] : [])),
  )
}
