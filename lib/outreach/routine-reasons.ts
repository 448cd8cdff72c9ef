import { classSettings, pressureSettings, targetSettings } from "../measures/setting-groups"
import type { Reason } from "./types"

const measured = { kind: "pressure", systolic: "p.systolic", diastolic: "p.diastolic" } as const
const none = { kind: "none" } as const
const urineAlbumin = {
  kind: "amount",
  amount: "p.acr",
  comparator: "p.acr_comparator",
  unit: "mg/g",
} as const

/** Treatment: who is not where the clinic wants them. */
export const treatmentReasons: readonly Reason[] = [
  {
    id: "protein-without-ras-blocker",
    tier: "routine",
    name: "Protein in the urine, no ACE inhibitor or ARB",
    patientWords: "The medicines that protect the kidneys are due for a review.",
    endsWith: "an ACE inhibitor or ARB, a decision in force, or a urine without albuminuria",
    actor: "nephrologist",
    sql: "s.ras_blocker_in_albuminuria = 'not met'",
    factOn: "p.urine_on",
    value: urineAlbumin,
    fallsOutOn: null,
    settings: [...classSettings, "ras.fromCategory", "decisions.months"],
    source:
      "KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.6, doi:10.1016/j.kint.2023.10.018",
  },
  {
    id: "above-target-on-several",
    tier: "routine",
    name: "Above target on {drugs.several} or more classes",
    patientWords: "The blood pressure and its medicines are due for a review.",
    endsWith: "a pressure at target, or fewer classes",
    actor: "nephrologist",
    sql: "s.uncontrolled_on_several_classes = 'met' and p.systolic < 160 and p.diastolic < 100",
    factOn: "p.bp_on",
    value: measured,
    fallsOutOn: null,
    settings: [...pressureSettings, ...targetSettings, ...classSettings, "drugs.several"],
    source:
      "Resistant hypertension: Carey 2018, AHA scientific statement, Hypertension 72:e53-e90, doi:10.1161/HYP.0000000000000084 (from memory)",
  },
  {
    id: "above-target",
    tier: "routine",
    name: "Above target",
    patientWords: "The blood pressure is due for a check.",
    endsWith: "a pressure at target, or a decision in force",
    actor: "care coordinator",
    sql: "s.bp_at_target = 'not met' and s.uncontrolled_on_several_classes <> 'met' and p.systolic < 160 and p.diastolic < 100",
    factOn: "p.bp_on",
    value: measured,
    fallsOutOn: null,
    settings: [...pressureSettings, ...targetSettings, ...classSettings, "drugs.several", "decisions.months"],
    source: "The clinic's target; its source stands beside the setting",
  },
]

/** Tests and records that are due, and people nobody has seen. */
export const dueReasons: readonly Reason[] = [
  {
    id: "pressure-not-measured",
    tier: "routine",
    name: "No pressure in {bp.windowMonths} months",
    patientWords: "A blood pressure check is due.",
    endsWith: "a usable pressure",
    actor: "care coordinator",
    sql: "s.pressure_measured = 'not met'",
    factOn: "r.last_reading_on",
    value: none,
    fallsOutOn: null,
    settings: pressureSettings,
    source: "The clinic's window; common practice, no source",
  },
  {
    id: "urine-albumin-due",
    tier: "routine",
    name: "Urine albumin overdue",
    patientWords: "A urine test is due.",
    endsWith: "an ACR or PCR",
    actor: "care coordinator",
    sql: "s.acr_tested = 'not met'",
    factOn: "p.urine_last_on",
    value: none,
    fallsOutOn: null,
    settings: [],
    source:
      "At least once a year in CKD: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 2.1, doi:10.1016/j.kint.2023.10.018",
  },
  {
    id: "kidney-tests-due",
    tier: "routine",
    name: "Kidney blood tests behind schedule",
    patientWords: "A blood test is due.",
    endsWith: "as many days with an eGFR in 12 months as the risk cell asks for",
    actor: "care coordinator",
    sql: "s.monitoring_on_schedule = 'not met' and p.egfr_days_in_year < p.tests_due",
    factOn: "p.egfr_tested_on",
    value: none,
    fallsOutOn: null,
    settings: ["egfr.windowMonths", "acr.windowMonths", "acr.a3"],
    source:
      "Times a year by risk: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, Figure 13, doi:10.1016/j.kint.2023.10.018 (from memory)",
  },
  {
    id: "diet-record-due",
    tier: "routine",
    name: "Diet record due",
    patientWords: "A talk with the dietitian is due.",
    endsWith: "a diet record or a urine that tells the sodium",
    actor: "dietitian",
    sql: "s.diet_sodium_within_limit = 'unknown'",
    factOn: "p.diet_last_on",
    value: none,
    fallsOutOn: null,
    settings: ["diet.windowDays"],
    source: "Once in 12 months: common practice, no source",
  },
  {
    id: "lost-to-follow-up",
    tier: "routine",
    name: "Not seen for 12 months, no visit booked",
    patientWords: "A visit is due.",
    endsWith: "a visit, or one that is booked",
    actor: "care coordinator",
    sql: "r.last_visit_on <= months_before(p.as_of, 12) and p.next_visit_on is null and not p.palliative",
    factOn: "r.last_visit_on",
    value: none,
    fallsOutOn: null,
    settings: ["panel.visitMonths"],
    source: "No visit in 12 to 18 months: common practice, no source",
  },
]

/** What will fall out of its window within the days the clinic looks ahead; the fact still counts today. */
export const aheadReasons: readonly Reason[] = [
  {
    id: "pressure-falls-out",
    tier: "ahead",
    name: "Pressure falls out of its window",
    patientWords: "A blood pressure check will soon be due.",
    endsWith: "a later usable pressure",
    actor: "care coordinator",
    sql: "s.pressure_measured = 'met' and p.bp_on <= months_before(p.as_of + t.outreach_ahead_days, t.bp_window_months)",
    factOn: "p.bp_on",
    value: measured,
    // Adding months ends a day of a longer month at the end of the shorter one, as the definitions count them.
    fallsOutOn: "cast(p.bp_on + t.bp_window_months * interval '1' month as date)",
    settings: [...pressureSettings, "outreach.aheadDays"],
    source: "60 days ahead: common practice, no source",
  },
  {
    id: "urine-falls-out",
    tier: "ahead",
    name: "Urine albumin falls out of its window",
    patientWords: "A urine test will soon be due.",
    endsWith: "a later ACR or PCR",
    actor: "care coordinator",
    sql: "s.acr_tested = 'met' and p.urine_last_on <= months_before(p.as_of + t.outreach_ahead_days, 12)",
    factOn: "p.urine_last_on",
    value: none,
    fallsOutOn: "cast(p.urine_last_on + interval '12' month as date)",
    settings: ["outreach.aheadDays"],
    source: "60 days ahead: common practice, no source",
  },
]
