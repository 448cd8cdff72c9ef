import type { Random } from "./random"

/** The classes the definitions count, as the words they use. */
export type DrugClass =
  | "ras_blocker"
  | "calcium_channel_blocker"
  | "diuretic"
  | "mineralocorticoid_antagonist"
  | "beta_blocker"
  | "alpha1_blocker"
  | "central_agonist"
  | "vasodilator"

export type RasKind = "ace_inhibitor" | "arb"

export type Drug = {
  name: string
  /** Other spellings met in records: salts, British and US names, abbreviations. */
  spellings: readonly string[]
  classes: readonly DrugClass[]
  rasKind: RasKind | null
  /** Doses from the lowest to the highest; for combinations the strengths as they are written. */
  steps: readonly (number | string)[]
  unit: string
  timesPerDay: number
  atc: string
  weight: number
}

/** How a records system of one kind or another writes a drug at one dose. */
export function writeDrug(options: { drug: Drug; step: number | string; random: Random }): string {
  const { drug, step, random } = options
  const name = drug.spellings.length > 0 && random.chance(0.4) ? random.pick(drug.spellings) : drug.name
  const unit = drug.unit === "tablet" ? "mg" : drug.unit
  const strength = `${step}${random.chance(0.6) ? " " : ""}${unit}`
  const form = random.pick([" tablet", " tablets", " tab", " oral tablet", ""])
  const style = random.unit()
  if (style < 0.22) return capital(name)
  if (style < 0.68) return `${capital(name)} ${strength}${form}`
  if (style < 0.8) return `${name} ${strength}`
  if (style < 0.9) return `${name.toUpperCase()} ${strength.toUpperCase()} TAB`
  return `${name} ${strength}, film-coated tablet`
}

function capital(word: string): string {
  return word.slice(0, 1).toUpperCase() + word.slice(1)
}
