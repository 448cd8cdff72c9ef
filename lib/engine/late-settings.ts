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
    name: "tried_panel",
    reads: "tried_rows",
    settings: ["panel.visitMonths"],
    columns: [],
    follows: [],
    mark: "is_other_panel",
  },
  {
    name: "tried_sodium",
    reads: "tried_panel",
    settings: ["diet.windowDays"],
    columns: ["sodium_in_year_mg"],
    follows: [],
    mark: null,
  },
  {
    name: "tried_kidney",
    reads: "tried_sodium",
    settings: ["egfr.windowMonths", "acr.windowMonths", "acr.a3"],
    columns: [
      ...["egfr", "failure_risk_2_years", "a", "urine_on", "albuminuria", "is_acr_200"],
      ...["ckd", "risk_cell", "tests_due"],
    ],
    follows: [],
    mark: "is_other_kidney",
  },
  {
    name: "tried_pressures",
    reads: "tried_kidney",
    settings: ["bp.windowMonths", "bp.freshDays"],
    columns: ["systolic", "diastolic", "bp_source", "bp_on"],
    follows: [],
    mark: null,
  },
  {
    name: "tried_targets",
    reads: "tried_pressures",
    settings: [...targetSettings, "bp.lowSystolic"],
    columns: ["at_target", "quarter_ago_at_target", "is_pressure_low_lately"],
    follows: ["tried_pressures"],
    mark: null,
  },
] as const satisfies readonly {
  name: string
  reads: string
  settings: readonly SettingKey[]
  columns: readonly string[]
  /** The steps whose columns it holds against something. */
  follows: readonly string[]
  /** The column that marks the rows in which it finds another value than is stored; null where it marks none. */
  mark: string | null
}[]

/** The settings that conditions alone name, over values that are stored. */
const conditionSettings: readonly SettingKey[] = ["drugs.several", "diet.limitMg", "ras.fromCategory"]

/** Whether there are such settings and all of them can be tried on what is stored, without any view of the facts. */
export function areLate(changed: readonly SettingKey[]): boolean {
  const late = new Set<SettingKey>([...conditionSettings, ...lateSteps.flatMap((step) => step.settings)])
  return changed.length > 0 && changed.every((key) => late.has(key))
}

type Step = (typeof lateSteps)[number]

/** The steps that have to be taken for these settings: those that name one of them, and those that follow them. */
export function stepsTaken(changed: readonly SettingKey[]): readonly Step[] {
  const taken = new Set<string>(stepsNamed(changed).map((step) => step.name))
  return lateSteps.filter(({ name, follows }) => {
    const isTaken = taken.has(name) || follows.some((before) => taken.has(before))
    if (isTaken) taken.add(name)
    return isTaken
  })
}

function stepsNamed(changed: readonly SettingKey[]): readonly Step[] {
  return lateSteps.filter((step) => step.settings.some((key) => changed.includes(key)))
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

/** A condition over a row `p` without which none of its answers is another one under these settings. */
export function mayDiffer(changed: readonly SettingKey[]): string {
  const named = stepsNamed(changed)
  if (changed.some((key) => conditionSettings.includes(key)) || named.some((step) => step.mark === null))
    return "true"
  return named.map((step) => `p.${step.mark}`).join(" or ")
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
