import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const failureRisk: Measure = {
  id: "failure-risk",
  column: "failure_risk",
  theme: "monitoring",
  name: "Risk of kidney failure",
  question: "Whose risk of kidney failure within 2 years is above 10%?",
  direction: "down",
  actor: "nephrologist",
  action:
    "Speak about what may come, and bring in the team that plans for dialysis and transplant. Clinicians decide; local policy applies.",
  metWords: "2-year risk of kidney failure above 10%",
  notMetWords: "2-year risk of kidney failure 10% or less",
  population: [hasCkd, { sql: "p.egfr < 60", words: "eGFR under 60", evidence: "kidney" }],
  excluded: usualExclusions,
  unknown: [
    {
      sql: "p.failure_risk_2_years is null",
      words:
        "risk not computable: no ACR above 0 within {kfre.maxGapDays} days of the eGFR, or sex not recorded",
      evidence: "failure risk",
    },
  ],
  met: {
    sql: "p.failure_risk_2_years > 0.1",
    words: "2-year risk above 10% by the four-variable equation",
    evidence: "failure risk",
  },
  exception: [],
  fact: null,
  news: { gained: ["egfr_on", "risk_acr_on"], lost: ["egfr_on", "risk_acr_on"] },
  params: {},
  settings: [...panelSettings, ...ckdSettings, "kfre.region", "kfre.maxGapDays"],
  source:
    "Tangri 2016, JAMA 315:164-174, doi:10.1001/jama.2015.18202; 2-year risk above 10% for the timing of team care: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, practice point 2.2.2, doi:10.1016/j.kint.2023.10.018 (threshold from memory)",
}
