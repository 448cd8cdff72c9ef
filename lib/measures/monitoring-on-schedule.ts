import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const monitoringOnSchedule: Measure = {
  id: "monitoring-on-schedule",
  column: "monitoring_on_schedule",
  theme: "monitoring",
  name: "Monitoring on schedule",
  question: "Who is tested as often as the risk asks?",
  direction: "up",
  actor: "care coordinator",
  action:
    "Book the blood and urine tests that are due, and set the interval in the plan. The clinic decides what is due; local policy applies.",
  metWords: "tested as often as the risk asks",
  notMetWords: "tested less often than the risk asks",
  population: [
    hasCkd,
    { sql: "p.risk_cell is not null", words: "eGFR and urine category both known", evidence: "risk cell" },
  ],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.egfr_days_in_year >= p.tests_due and p.is_urine_tested_in_year",
    words:
      "in the last 12 months eGFR on as many days as the risk grid asks, and at least one ACR or PCR; 4 stands for 4 or more",
    evidence: "kidney tests",
  },
  exception: [],
  fact: null,
  news: { gained: ["egfr_tested_on", "urine_last_on", "risk_cell_on"], lost: ["risk_cell_on"] },
  params: {},
  settings: [...panelSettings, ...ckdSettings],
  source:
    "Tests a year by GFR and albuminuria: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, monitoring figure of section 2.1, doi:10.1016/j.kint.2023.10.018",
}
