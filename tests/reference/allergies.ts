import type { Day } from "./day"
import type { Allergy } from "./facts"
import { ingredientsOfText } from "./drug-list"

/** Has the person a documented allergic reason against both ACE inhibitors and ARBs, or angioedema to either? */
export function hasRasAllergyReason(allergies: Allergy[], on: Day): boolean {
  const known = allergies.filter((allergy) => allergy.recordedOn === null || allergy.recordedOn <= on)
  const toAce = known.filter((allergy) => kindsOf(allergy).includes("ACE inhibitor"))
  const toArb = known.filter((allergy) => kindsOf(allergy).includes("ARB"))
  const hadAngioedema = [...toAce, ...toArb].some((allergy) => allergy.reaction === "angioedema")
  return hadAngioedema || (toAce.length > 0 && toArb.length > 0)
}

/** The kinds of drug a substance names, by ingredient or by the name of the kind itself. */
function kindsOf(allergy: Allergy): string[] {
  const kinds = ingredientsOfText(allergy.substance).map((ingredient) => ingredient.kind)
  if (/\bace[ -]?(inhibitor|i\b)/i.test(allergy.substance)) kinds.push("ACE inhibitor")
  if (/\b(arb|angiotensin.*receptor)/i.test(allergy.substance)) kinds.push("ARB")
  return kinds
}
