import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const acrTested: Measure = {
  id: "acr-tested",
  column: "acr_tested",
  theme: "monitoring",
  name: "Urine albumin tested",
  question: "Was urine albumin measured in the last 12 months?",
  direction: "up",
  actor: "care coordinator",
  action:
    "Ask for a urine albumin at the next visit or by letter. The clinic decides what is due; local policy applies.",
  metWords: "urine albumin or protein measured in the last 12 months",
  notMetWords: "no urine albumin or protein in the last 12 months",
  population: [hasCkd],
  excluded: usualExclusions,
  unknown: [],
  met: { sql: "p.is_urine_tested_in_year", words: "an ACR or PCR in the last 12 months", evidence: "urine" },
  exception: [],
  fact: null,
  news: { gained: ["urine_last_on"], lost: [] },
  params: {},
  settings: [...panelSettings, ...ckdSettings],
  source:
    "At least yearly in CKD: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, practice point 2.1.1, doi:10.1016/j.kint.2023.10.018",
}
