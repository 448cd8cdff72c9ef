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
  /** Named parameters of the conditions, each with the setting that fills it. */
  readonly params: Readonly<Record<string, SettingKey>>
  /** Every setting that can change the measure's standings, through its conditions or the views behind them. */
  readonly settings: readonly SettingKey[]
  readonly source: string
}

/** A measure whose words stand as they are read: what the clinic set is in them. See `wordedMeasures`. */
export type WordedMeasure = Measure & { readonly set: Settings }
