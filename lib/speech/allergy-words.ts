import { day, sentenceCase } from "./format"

type Allergy = { substance: string; reaction: string | null }

/** "Lisinopril: cough, 3 May 2019". */
export function allergyWords(allergy: Allergy & { recorded_on: string | null }): string {
  const on = allergy.recorded_on === null ? "no day recorded" : day(allergy.recorded_on)
  return `${sentenceCase(allergy.substance)}: ${allergy.reaction ?? "reaction not recorded"}, ${on}`
}

/** "lisinopril (cough)", within a sentence; without a reaction on record the substance alone. */
export function shortAllergyWords({ substance, reaction }: Allergy): string {
  return reaction === null ? substance : `${substance} (${reaction})`
}
