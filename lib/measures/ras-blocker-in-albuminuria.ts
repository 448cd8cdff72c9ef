import { usualExclusions } from "./populations"
import { panelSettings, pressureSettings, urineSettings } from "./setting-groups"
import type { Condition, Measure } from "./types"

/** The category from which the clinic asks for one. */
export const fromCategory: Condition = {
  sql: "p.a = 'A3' or cast($ras_from_category as varchar) = 'A2'",
  words: "urine category from {ras.fromCategory} on",
  evidence: "urine",
}

export const rasBlockerInAlbuminuria: Measure = {
  id: "ras-blocker-in-albuminuria",
  column: "ras_blocker_in_albuminuria",
  theme: "protection",
  name: "ACE inhibitor or ARB with albuminuria",
  question: "Of those with protein in the urine, who takes an ACE inhibitor or ARB?",
  direction: "up",
  actor: "nephrologist",
  action:
    "Review whether an ACE inhibitor or ARB may be given, or record why not; check potassium and creatinine after a start. Clinicians decide; local policy applies.",
  metWords: "confirmed albuminuria, on an ACE inhibitor or ARB",
  notMetWords: "confirmed albuminuria, no ACE inhibitor or ARB",
  population: [
    { sql: "p.albuminuria = 'confirmed'", words: "confirmed albuminuria", evidence: "urine" },
    fromCategory,
  ],
  excluded: [
    ...usualExclusions,
    { sql: "p.egfr < 15", words: "eGFR under 15 (individual decision)", evidence: "kidney" },
  ],
  unknown: [],
  met: { sql: "p.on_ras_blocker", words: "an ACE inhibitor or ARB is active", evidence: "drugs" },
  exception: [
    {
      sql: "p.ras_decision is not null",
      words: "a clinician's decision on ACE inhibitors and ARBs is in force",
      evidence: "decisions",
    },
    {
      sql: "p.has_ras_angioedema",
      words: "angioedema to an ACE inhibitor or ARB on record",
      evidence: "allergies",
    },
    {
      sql: "p.is_intolerant_to_ras",
      words: "allergy or intolerance to both an ACE inhibitor and an ARB on record",
      evidence: "allergies",
    },
    {
      sql: "p.is_potassium_high_lately",
      words: "latest potassium of the last 90 days above 5.5 mmol/L",
      evidence: "potassium",
    },
    {
      sql: "p.is_pressure_low_lately",
      words: "systolic of the last 90 days below {bp.lowSystolic}",
      evidence: "pressure",
    },
  ],
  fact: "urine_on",
  news: { gained: ["ace_arb_started_on"], lost: ["ace_arb_stopped_on"] },
  params: { ras_from_category: "ras.fromCategory" },
  settings: [
    ...panelSettings,
    ...urineSettings,
    "ras.fromCategory",
    ...pressureSettings,
    "egfr.windowMonths",
    "drugs.graceDays",
    "bp.lowSystolic",
    "decisions.months",
  ],
  source:
    "KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.6, doi:10.1016/j.kint.2023.10.018",
}
