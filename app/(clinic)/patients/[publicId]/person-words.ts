import { listed } from "../../../../lib/speech/format"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"

/** The kidneys in a word or three: "CKD G3b A2, high risk". */
export function stageWords(person: PatientIdentity): string {
  const cell = [person.g, person.a].filter(Boolean).join(" ")
  if (person.on_dialysis) return "on dialysis"
  if (person.transplant) return `kidney transplant${cell === "" ? "" : `, ${cell}`}`
  const risk = person.risk_cell === null ? "" : `, ${person.risk_cell} risk`
  if (person.ckd) return `CKD ${cell === "" ? "of unknown stage" : cell}${risk}`
  return cell === "" ? "kidney status not known" : `${cell}, no CKD on record`
}

/** What stands on the problem list, of what the measures ask; empty where nothing does. */
export function problemListWords(person: PatientIdentity): string {
  const known = [
    person.hypertension ? "hypertension" : null,
    person.diabetes ? "diabetes" : null,
    person.heart_failure ? "heart failure" : null,
    person.atrial_fibrillation ? "atrial fibrillation" : null,
    person.pregnancy ? "pregnancy" : null,
    person.palliative ? "palliative care" : null,
  ].filter((word) => word !== null)
  return known.length === 0 ? "" : `On the problem list: ${listed(known)}.`
}
