import { safetyExclusions } from "./populations"
import { panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const potassiumHighOnRas: Measure = {
  id: "potassium-high-on-ras",
  column: "potassium_high_on_ras",
  theme: "safety",
  name: "High potassium on a RAS blocker or MRA",
  question: "High potassium on a RAS blocker or mineralocorticoid antagonist?",
  direction: "down",
  actor: "nephrologist",
  action:
    "Repeat the potassium where the sample is in doubt; look at diet, diuretics, other drugs that raise it and a binder before a drug that protects the kidney is stopped. Clinicians decide; local policy applies.",
  metWords: "potassium above 5.5 mmol/L on the drug",
  notMetWords: "potassium 5.5 mmol/L or lower on the drug",
  population: [
    {
      sql: "p.on_any_ras_blocker or p.on_steroidal_mra or p.on_finerenone",
      words: "an ACE inhibitor, ARB, direct renin inhibitor or mineralocorticoid antagonist is active",
      evidence: "drugs",
    },
  ],
  excluded: safetyExclusions,
  unknown: [
    {
      sql: "not p.has_potassium_in_year",
      words: "no potassium in the last 12 months",
      evidence: "potassium",
    },
  ],
  met: { sql: "p.is_potassium_high", words: "latest potassium above 5.5 mmol/L", evidence: "potassium" },
  exception: [],
  fact: "potassium_on",
  news: { gained: ["potassium_on"], lost: ["potassium_on"] },
  params: {},
  settings: [...panelSettings, "drugs.graceDays"],
  source:
    "KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, sections 3.6 and 3.11, doi:10.1016/j.kint.2023.10.018",
}
