import type { SettingKey, Settings } from "../domain/settings"

/** Which facts stand behind a condition; the patient screen lists them with their source rows. */
export type Evidence =
  | "pressure"
  | "earlier pressure"
  | "counted day"
  | "kidney"
  | "urine"
  | "risk cell"
  | "kidney tests"
  | "slope"
  | "failure risk"
  | "home"
  | "diet"
  | "dietitian"
  | "drugs"
  | "drug changes"
  | "drug stops"
  | "RAS blocker starts"
  | "potassium"
  | "problems"
  | "dialysis"
  | "allergies"
  | "decisions"
  | "person"

/**
 * One SQL condition over a row `p` of `patient_month`, with the words a clinician reads. Constant text, no interpolation;
 * in words `{bp.windowMonths}` stands for what the clinic set there.
 */
export type Condition = { readonly sql: string; readonly words: string; readonly evidence: Evidence }

export type Theme = "pressure" | "protection" | "diet" | "monitoring" | "safety"

/** The days of `news_days` (lib/questions/change-causes.ts): when a fact that a standing may rest on was recorded last. */
export type NewsDay =
  | "bp_on"
  | "counted_day"
  | "home_average_on"
  | "plan_on"
  | "pressure_decided_on"
  | "pressure_undone_on"
  | "class_started_on"
  | "class_stopped_on"
  | "ace_arb_started_on"
  | "ace_arb_stopped_on"
  | "ras_kind_started_on"
  | "ras_kind_stopped_on"
  | "ras_start_on"
  | "sglt2_started_on"
  | "sglt2_stopped_on"
  | "withdrawal_started_on"
  | "withdrawal_stop_on"
  | "followed_stop_on"
  | "egfr_on"
  | "egfr_tested_on"
  | "slope_to"
  | "risk_acr_on"
  | "acr_last_on"
  | "urine_last_on"
  | "risk_cell_on"
  | "potassium_on"
  | "sodium_in_year_on"
  | "dietitian_seen_on"

/** Who acts on the people a measure finds. */
export type Actor = "nephrologist" | "nurse" | "dietitian" | "care coordinator"

/** What a measure says besides its name; `{met}`, `{all}`, `{population}` ... are filled with counts by the screens. */
export type Direction = "up" | "down"

/**
 * One question asked of every patient in the panel. A standing is the first that applies:
 * outside (a population condition fails), excluded, unknown, met, exception, not met.
 */
export type Measure = {
  readonly id: string
  /** The measure's column in `patient_standings`. */
  readonly column: string
  readonly theme: Theme
  readonly name: string
  readonly question: string
  readonly direction: Direction
  readonly actor: Actor
  /** What may be done about it; clinicians decide and local policy applies. */
  readonly action: string
  /** What the standing `met` and `not met` mean in words, for a list of people. */
  readonly metWords: string
  readonly notMetWords: string
  readonly population: readonly Condition[]
  readonly excluded: readonly Condition[]
  readonly unknown: readonly Condition[]
  readonly met: Condition
  readonly exception: readonly Condition[]
  /** The column of `patient_month` that dates the deciding fact; null where the measure has none. */
  readonly fact: string | null
  /** The days that make a move to met (gained) or from it (lost) clinical news where one lies after the earlier day. */
  readonly news: { readonly gained: readonly NewsDay[]; readonly lost: readonly NewsDay[] }
  /** Named parameters of the conditions, each with the setting that fills it. */
  readonly params: Readonly<Record<string, SettingKey>>
  /** Every setting that can change the measure's standings, through its conditions or the views behind them. */
  readonly settings: readonly SettingKey[]
  readonly source: string
}

/** A measure whose words stand as they are read: what the clinic set is in them. See `wordedMeasures`. */
export type WordedMeasure = Measure & { readonly set: Settings }
