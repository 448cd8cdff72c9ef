import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const seenByDietitian: Measure = {
  id: "seen-by-dietitian",
  column: "seen_by_dietitian",
  theme: "diet",
  name: "Seen by a dietitian",
  question: "Who with an eGFR under 45 saw a dietitian in the last 12 months?",
  direction: "up",
  actor: "dietitian",
  action:
    "Offer a visit to the dietitian, in the clinic or by telehealth, or record that it was declined. Clinicians decide; local policy applies.",
  metWords: "a dietitian visit in the last 12 months",
  notMetWords: "no dietitian visit in the last 12 months",
  population: [hasCkd, { sql: "p.egfr < 45", words: "eGFR under 45", evidence: "kidney" }],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.is_seen_by_dietitian_in_year",
    words: "an office or telehealth visit to a dietitian in the last 12 months",
    evidence: "dietitian",
  },
  exception: [
    {
      sql: "p.diet_decision is not null",
      words: "a clinician's decision on diet is in force",
      evidence: "decisions",
    },
  ],
  fact: null,
  news: { gained: ["dietitian_seen_on"], lost: [] },
  params: {},
  settings: [...panelSettings, ...ckdSettings, "decisions.months"],
  source:
    "Access to renal dietitians: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.3, doi:10.1016/j.kint.2023.10.018; 12 months and eGFR under 45: common practice, no source",
}
