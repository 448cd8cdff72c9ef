import { groups } from "./drug-groups"

export type DrugClass =
  | "ras_blocker"
  | "calcium_channel_blocker"
  | "diuretic"
  | "mineralocorticoid_antagonist"
  | "beta_blocker"
  | "alpha1_blocker"
  | "central_agonist"
  | "vasodilator"
  | "other"

/** Combination codes, each with the ingredients it settles. Source: WHO ATC index 2026. */
const combinationCodes: Record<string, string> = {
  "ATC:C09DX04": "sacubitril valsartan",
  "RX:1656339": "sacubitril valsartan",
  "ATC:C09DX01": "valsartan amlodipine hydrochlorothiazide",
  "ATC:C09DB01": "valsartan amlodipine",
  "ATC:C09DB02": "olmesartan amlodipine",
  "ATC:C09DA03": "valsartan hydrochlorothiazide",
  "ATC:C09DA01": "losartan hydrochlorothiazide",
  "ATC:C09DA09": "azilsartan chlorthalidone",
  "ATC:C09BA03": "lisinopril hydrochlorothiazide",
  "ATC:C09BB03": "lisinopril amlodipine",
  "ATC:C09BB13": "benazepril amlodipine",
  "ATC:C09DX02": "valsartan aliskiren",
  "ATC:C07CB03": "atenolol chlorthalidone",
  "ATC:C03DA54": "eplerenone dapagliflozin",
  "ATC:C10BX03": "atorvastatin amlodipine",
}

/** British names of combinations; from memory of the British National Formulary. */
const combinationNames: Record<string, string> = {
  "co-tenidone": "atenolol chlorthalidone",
  "co-amilozide": "amiloride hydrochlorothiazide",
  "co-amilofruse": "amiloride furosemide",
  "co-zidocapt": "captopril hydrochlorothiazide",
}

export type Ingredient = { name: string; class: DrugClass | null; kind: string }

const ingredientByName = new Map<string, Ingredient>()
const ingredientByCode = new Map<string, Ingredient>()

for (const group of groups) {
  for (const drug of group.drugs.split(";")) {
    const words = drug.trim().split(/\s+/)
    const ingredient = { name: words[0] ?? "", class: group.class, kind: group.kind }
    for (const word of words) {
      if (word.includes(":")) ingredientByCode.set(word, ingredient)
      else ingredientByName.set(word, ingredient)
    }
  }
}

/** The ingredients on the list that a drug text names. */
export function ingredientsOfText(text: string): Ingredient[] {
  const plain = text.toLowerCase()
  const combined = Object.entries(combinationNames).flatMap(([name, content]) =>
    plain.includes(name) ? content : [],
  )
  const words = [plain, ...combined].flatMap((each) => each.split(/[^a-z]+/))
  return words.flatMap((word) => ingredientByName.get(word) ?? [])
}

/** The ingredients a code settles; none for a code that is not on the list. */
export function ingredientsOfCode(system: string | null, code: string | null): Ingredient[] {
  if (code === null || (system !== "atc" && system !== "rxnorm")) return []
  const place = `${system === "atc" ? "ATC" : "RX"}:${code.toUpperCase()}`
  const combination = combinationCodes[place]
  if (combination) return ingredientsOfText(combination)
  return [ingredientByCode.get(place)].flatMap((found) => found ?? [])
}
