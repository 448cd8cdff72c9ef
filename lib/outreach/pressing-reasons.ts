import { classSettings, pressureSettings, targetSettings } from "../measures/setting-groups"
import type { Reason } from "./types"

const potassium = {
  kind: "amount",
  amount: "p.potassium",
  comparator: "p.potassium_comparator",
  unit: "mmol/L",
} as const

/** What cannot wait: the clinic's escalation rule applies, not the order of a list. */
export const urgentReasons: readonly Reason[] = [
  {
    id: "pressure-very-high",
    tier: "urgent",
    name: "Pressure very high",
    patientWords: "A blood pressure was high and needs to be looked at soon.",
    endsWith: "a week without a counted reading of 180 or 120",
    actor: "nephrologist",
    sql: "r.very_high_on is not null and not p.palliative",
    factOn: "r.very_high_on",
    value: { kind: "pressure", systolic: "r.very_high_systolic", diastolic: "r.very_high_diastolic" },
    restsOn: ["reading of 180 or 120"],
    fallsOutOn: null,
    settings: [],
    source:
      "180 or 120 mmHg: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 11.2, doi:10.1161/HYP.0000000000000065 (from memory); seven days are common practice, no source",
  },
  {
    id: "potassium-very-high",
    tier: "urgent",
    name: "Potassium very high",
    patientWords: "A blood test needs to be repeated soon.",
    endsWith: "a potassium below 6.0 mmol/L",
    actor: "nephrologist",
    sql: "p.has_potassium_in_year and reaches(p.potassium, p.potassium_comparator, 6.0) and not p.palliative",
    factOn: "p.potassium_on",
    value: potassium,
    restsOn: ["potassium"],
    fallsOutOn: null,
    settings: [],
    source:
      "Moderate and severe hyperkalaemia from 6.0 mmol/L: UK Kidney Association 2023, Clinical practice guideline on hyperkalaemia in adults (from memory)",
  },
  {
    id: "drug-stopped-abruptly",
    tier: "urgent",
    name: "Clonidine-like drug or beta blocker stopped without taper",
    patientWords: "A change of medicines needs a check of pulse and blood pressure.",
    endsWith: "a counted reading after the stop",
    actor: "nurse",
    sql: "p.untapered_stop_on is not null and (p.counted_day is null or p.counted_day <= p.untapered_stop_on) and not p.palliative",
    factOn: "p.untapered_stop_on",
    value: { kind: "none" },
    restsOn: ["stop without taper"],
    fallsOutOn: null,
    settings: classSettings,
    source:
      "Avoid abrupt cessation: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, Table 18, doi:10.1161/HYP.0000000000000065",
  },
]

/** What is to be looked at within a week or two. */
export const soonReasons: readonly Reason[] = [
  {
    id: "potassium-high",
    tier: "soon",
    name: "Potassium high",
    patientWords: "A blood test needs to be repeated.",
    endsWith: "a potassium of 5.5 mmol/L or less",
    actor: "nephrologist",
    sql: "p.has_potassium_in_year and p.is_potassium_high and not reaches(p.potassium, p.potassium_comparator, 6.0) and not p.palliative",
    factOn: "p.potassium_on",
    value: potassium,
    restsOn: ["potassium"],
    fallsOutOn: null,
    settings: [],
    source:
      "Steps begin above 5.5 mmol/L: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.6, doi:10.1016/j.kint.2023.10.018",
  },
  {
    id: "pressure-high",
    tier: "soon",
    name: "Pressure 160 or 100 and over",
    patientWords: "A blood pressure was high and needs to be looked at.",
    endsWith: "a pressure below 160 and 100, or a decision in force",
    actor: "nurse",
    sql: "s.bp_at_target = 'not met' and (p.systolic >= 160 or p.diastolic >= 100) and r.very_high_on is null",
    factOn: "p.bp_on",
    value: { kind: "pressure", systolic: "p.systolic", diastolic: "p.diastolic" },
    restsOn: ["pressure"],
    fallsOutOn: null,
    settings: [...pressureSettings, ...targetSettings],
    source: "160 or 100 mmHg, stage 2 in the clinic: NICE NG136, hypertension in adults (from memory)",
  },
  {
    id: "pressure-low-on-drugs",
    tier: "soon",
    name: "Pressure low on drugs",
    patientWords: "The medicines for blood pressure are due for a review.",
    endsWith: "a systolic that is not low, or no class of pressure drug",
    actor: "nephrologist",
    sql: "s.low_pressure_on_drugs = 'met'",
    factOn: "p.bp_on",
    value: { kind: "pressure", systolic: "p.systolic", diastolic: "p.diastolic" },
    restsOn: ["pressure", "drugs of counted classes"],
    fallsOutOn: null,
    settings: [...pressureSettings, ...classSettings, "bp.lowSystolic"],
    source: "Systolic below 110 on treatment: common practice, no source; a reason to look, not to stop",
  },
  {
    id: "tests-after-start-due",
    tier: "soon",
    name: "Potassium or creatinine missing since an ACE inhibitor or ARB was started",
    patientWords: "A blood test is due after a change of medicines.",
    endsWith: "a potassium and a creatinine after the start",
    actor: "nurse",
    sql: "r.unchecked_start_on is not null and p.on_ras_blocker and not p.on_dialysis and not p.palliative",
    factOn: "r.unchecked_start_on",
    value: { kind: "none" },
    restsOn: ["start without tests"],
    fallsOutOn: null,
    settings: classSettings,
    source:
      "Potassium and creatinine within 2 to 4 weeks of a start: KDIGO 2021 blood pressure guideline, Kidney Int 99(3S):S1-S87, practice point 3.2.3, doi:10.1016/j.kint.2020.11.003 (from memory)",
  },
]
