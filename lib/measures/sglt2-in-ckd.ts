import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const sglt2InCkd: Measure = {
  id: "sglt2-in-ckd",
  column: "sglt2_in_ckd",
  theme: "protection",
  name: "SGLT2 inhibitor in CKD",
  question: "SGLT2 inhibitor where the guideline recommends it?",
  direction: "up",
  actor: "nephrologist",
  action:
    "Review whether an SGLT2 inhibitor may be offered, or record why not. Clinicians decide; local policy applies.",
  metWords: "on an SGLT2 inhibitor",
  notMetWords: "no SGLT2 inhibitor",
  population: [
    hasCkd,
    { sql: "p.egfr >= 20", words: "eGFR of 20 or more", evidence: "kidney" },
    {
      sql: "p.is_acr_200 or p.diabetes or p.heart_failure",
      words: "ACR of 200 mg/g or more, diabetes or heart failure",
      evidence: "urine",
    },
  ],
  excluded: [
    ...usualExclusions,
    { sql: "p.type_1_diabetes", words: "type 1 diabetes", evidence: "problems" },
  ],
  unknown: [],
  met: { sql: "p.on_sglt2_inhibitor", words: "an SGLT2 inhibitor is active", evidence: "drugs" },
  exception: [
    {
      sql: "p.sglt2_decision is not null",
      words: "a clinician's decision on SGLT2 inhibitors is in force",
      evidence: "decisions",
    },
  ],
  fact: null,
  news: { gained: ["sglt2_started_on"], lost: ["sglt2_stopped_on"] },
  params: {},
  settings: [...panelSettings, ...ckdSettings, "drugs.graceDays", "decisions.months"],
  source:
    "KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.7, doi:10.1016/j.kint.2023.10.018",
}
