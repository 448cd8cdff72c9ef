import type { SettingKey } from "../domain/settings"
import { classSettings, pressureSettings, targetSettings } from "./setting-groups"
import type { Actor } from "./types"

/** Something in a person's facts that a clinician should look at; it excludes nobody and counts nobody. */
export type Caution = {
  readonly id: CautionId
  readonly name: string
  /** What holds when it is shown, in full. */
  readonly words: string
  /** A condition over a row `p` of `patient_month`. Constant text, no interpolation. */
  readonly sql: string
  readonly actor: Actor
  /** What may be done about it; clinicians decide and local policy applies. */
  readonly action: string
  readonly settings: readonly SettingKey[]
  readonly source: string
}

export const cautionIds = [
  "ras-blocker-in-pregnancy-or-angioedema",
  "two-ras-blockers",
  "potassium-high-on-drug",
  "creatinine-rise-after-start",
  "stopped-without-taper",
  "pressure-low-on-drugs",
  "interfering-drug",
] as const

export type CautionId = (typeof cautionIds)[number]

const drugSettings: readonly SettingKey[] = ["drugs.graceDays"]

/** The cautions the data carry, most pressing first. */
export const cautions: readonly Caution[] = [
  {
    id: "ras-blocker-in-pregnancy-or-angioedema",
    name: "RAS blocker in pregnancy or after angioedema",
    words:
      "an ACE inhibitor, ARB or direct renin inhibitor is active in a pregnancy, or with angioedema to an ACE inhibitor or ARB on record",
    sql: "p.on_any_ras_blocker and (p.pregnancy or p.has_ras_angioedema)",
    actor: "nephrologist",
    action:
      "Confirm the record, and decide today whether the drug is stopped or changed. Clinicians decide; local policy applies.",
    settings: drugSettings,
    source:
      "Contraindicated in pregnancy and after angioedema: product information of the class; Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, Table 18, doi:10.1161/HYP.0000000000000065 (from memory)",
  },
  {
    id: "potassium-high-on-drug",
    name: "Potassium above 5.5 on a drug that raises it",
    words:
      "latest potassium of the last 12 months above 5.5 mmol/L with a RAS blocker or mineralocorticoid antagonist active",
    sql: "p.has_potassium_in_year and p.is_potassium_high and (p.on_any_ras_blocker or p.on_steroidal_mra or p.on_finerenone)",
    actor: "nephrologist",
    action:
      "Repeat the potassium, look at diet, diuretic, bicarbonate and other drugs before the dose. Clinicians decide; local policy applies.",
    settings: drugSettings,
    source:
      "KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, sections 3.6 and 3.11 (steps begin above 5.5 mmol/L), doi:10.1016/j.kint.2023.10.018",
  },
  {
    id: "creatinine-rise-after-start",
    name: "Creatinine up by more than 30% after a start",
    words:
      "an ACE inhibitor or ARB was started in the last 90 days, is still active, and a creatinine of days 1 to 28 was more than 30% above the last before",
    sql: "p.has_creatinine_rise and p.on_ras_blocker",
    actor: "nephrologist",
    action:
      "Repeat the creatinine; look for fluid loss, other drugs and narrowed kidney arteries. Clinicians decide; local policy applies.",
    settings: drugSettings,
    source:
      "Continue unless creatinine rises by more than 30% within 4 weeks: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.6, doi:10.1016/j.kint.2023.10.018",
  },
  {
    id: "two-ras-blockers",
    name: "Two kinds of RAS blocker at once",
    words: "two of ACE inhibitor, ARB and direct renin inhibitor are active; a short overlap may be a switch",
    sql: "p.has_two_ras_kinds",
    actor: "nephrologist",
    action:
      "Ask which of the two is taken, and close the order of the other. Clinicians decide; local policy applies.",
    settings: drugSettings,
    source:
      "Avoid combinations: KDIGO 2021 blood pressure guideline, Kidney Int 99(3S):S1-S87, recommendation 3.3.1, doi:10.1016/j.kint.2020.11.003",
  },
  {
    id: "stopped-without-taper",
    name: "Clonidine-like drug or beta blocker stopped without taper",
    words:
      "a clonidine-like drug or beta blocker stopped in the last 60 days, is not active, and its dose was not reduced in the 30 days before",
    sql: "p.untapered_stop_on is not null",
    actor: "nurse",
    action:
      "Ask whether the drug was stopped or ran out, and measure pressure and pulse. Clinicians decide; local policy applies.",
    settings: drugSettings,
    source:
      "Avoid abrupt cessation: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, Table 18, doi:10.1161/HYP.0000000000000065; the days are common practice, no source",
  },
  {
    id: "pressure-low-on-drugs",
    name: "Pressure low on drugs",
    words: "systolic pressure low since the newest class of pressure drug was started",
    sql: "p.class_count >= 1 and p.is_pressure_low and p.bp_on >= p.newest_class_on",
    actor: "nephrologist",
    action:
      "Ask about dizziness, falls and fluid loss, measure standing, and review which drug could be lowered. Clinicians decide; local policy applies.",
    settings: [...pressureSettings, ...classSettings, "bp.lowSystolic"],
    source: "Systolic below 110 on treatment: common practice, no source; a reason to look, not to stop",
  },
  {
    id: "interfering-drug",
    name: "Interfering drug with pressure above target",
    words:
      "a drug that raises the pressure or blunts what lowers it is active, and the pressure is above target",
    sql: "p.on_interfering_drug and not p.at_target",
    actor: "nephrologist",
    action:
      "Ask whether the drug is needed, also what is bought without a prescription, before another pressure drug. Clinicians decide; local policy applies.",
    settings: [...pressureSettings, ...targetSettings, ...drugSettings],
    source:
      "Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 5.4.1 and Table 14, doi:10.1161/HYP.0000000000000065 (from memory)",
  },
]

/** The list of the cautions that hold for a row `p` of `patient_month`, as one expression: their ids, most pressing first. */
export function cautionsSql(): string {
  const held = cautions.map(
    (caution) => `case when coalesce((${caution.sql}), false) then '${caution.id}' end`,
  )
  // Lists are a construct of this engine; the cautions of one row have no portable form.
  return `list_filter([${held.join(", ")}], lambda caution: caution is not null)`
}
