import { usualExclusions } from "./populations"
import { panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const rasStartChecked: Measure = {
  id: "ras-start-checked",
  column: "ras_start_checked",
  theme: "monitoring",
  name: "Checked after a RAS blocker start",
  question: "Potassium and creatinine checked after starting?",
  direction: "up",
  actor: "nurse",
  action:
    "Ask for potassium and creatinine where they are still missing, and see whether results are held elsewhere. Clinicians decide; local policy applies.",
  metWords: "potassium and creatinine within 28 days of every start",
  notMetWords: "potassium or creatinine missing in the 28 days after a start",
  population: [
    {
      sql: "p.are_ras_starts_checked is not null",
      words:
        "an ACE inhibitor or ARB started in the year that ended 28 days ago, after 90 days without either",
      evidence: "RAS blocker starts",
    },
  ],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.are_ras_starts_checked",
    words: "a potassium and a creatinine 1 to 28 days after every such start",
    evidence: "RAS blocker starts",
  },
  exception: [],
  fact: null,
  news: { gained: ["ras_start_on"], lost: ["ras_start_on"] },
  params: {},
  settings: [...panelSettings, "drugs.graceDays"],
  source:
    "Within 2 to 4 weeks of a start: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.6, doi:10.1016/j.kint.2023.10.018",
}
