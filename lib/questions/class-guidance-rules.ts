import type { FactKind } from "../measures/fact-kind"
import { isPotassiumAboveFive, isPotassiumHigh, isPotassiumLow, mayBePregnant } from "./person-conditions"

/** When statements of the list `class_guidance` concern somebody: a condition over the row `p` of `patient_month`. */
export type ClassGuidanceRule = {
  readonly when: string
  readonly sql: string
  readonly restsOn: readonly FactKind[]
}

const isAlbuminuric = "p.albuminuria = 'confirmed'"
const isBeforeG5 = "not p.on_dialysis and coalesce(p.egfr >= 15, true)"

export const classGuidanceRules: readonly ClassGuidanceRule[] = [
  {
    when: "a3",
    sql: `${isAlbuminuric} and p.a = 'A3' and ${isBeforeG5}`,
    restsOn: ["urine", "confirming urine"],
  },
  {
    when: "a2-with-diabetes",
    sql: `${isAlbuminuric} and p.a = 'A2' and p.diabetes and ${isBeforeG5}`,
    restsOn: ["urine", "confirming urine", "diabetes"],
  },
  {
    when: "a2-without-diabetes",
    sql: `${isAlbuminuric} and p.a = 'A2' and not p.diabetes and ${isBeforeG5}`,
    restsOn: ["urine", "confirming urine"],
  },
  {
    when: "albuminuria-g5",
    sql: `${isAlbuminuric} and not p.on_dialysis and p.egfr < 15`,
    restsOn: ["urine", "confirming urine", "eGFR"],
  },
  {
    when: "any-albuminuria",
    sql: `${isAlbuminuric} or p.on_any_ras_blocker`,
    restsOn: ["urine", "confirming urine", "RAS blockers"],
  },
  { when: "angioedema", sql: "p.has_ras_angioedema", restsOn: ["angioedema"] },
  { when: "transplant", sql: "p.transplant", restsOn: ["transplant"] },
  { when: "heart-failure", sql: "p.heart_failure", restsOn: ["heart failure"] },
  { when: "atrial-fibrillation", sql: "p.atrial_fibrillation", restsOn: ["atrial fibrillation"] },
  {
    when: "sglt2",
    sql: `p.ckd and p.egfr >= 20 and not p.type_1_diabetes and not p.on_dialysis and not p.transplant
      and (p.diabetes or p.heart_failure or coalesce(p.is_acr_200, false))`,
    restsOn: ["CKD", "eGFR", "diabetes", "heart failure", "ACR"],
  },
  {
    when: "diabetes-without-albuminuria",
    sql: "p.diabetes and p.albuminuria = 'none'",
    restsOn: ["diabetes", "urine"],
  },
  { when: "potassium-above-5.5", sql: isPotassiumHigh, restsOn: ["potassium"] },
  {
    when: "potassium-above-5",
    sql: `${isPotassiumAboveFive} and not p.is_potassium_high`,
    restsOn: ["potassium"],
  },
  {
    when: "potassium-above-4.8-with-diabetes",
    sql: `p.has_potassium_in_year and exceeds(p.potassium, p.potassium_comparator, 4.8) and p.diabetes`,
    restsOn: ["potassium", "diabetes"],
  },
  {
    when: "potassium-low",
    sql: isPotassiumLow,
    restsOn: ["potassium"],
  },
  { when: "egfr-below-45", sql: "p.egfr < 45", restsOn: ["eGFR"] },
  { when: "egfr-below-30", sql: "p.egfr < 30", restsOn: ["eGFR"] },
  { when: "pregnancy", sql: "p.pregnancy", restsOn: ["pregnancy"] },
  {
    when: "may-be-pregnant",
    sql: mayBePregnant,
    restsOn: ["person"],
  },
  { when: "always", sql: "true", restsOn: [] },
]
