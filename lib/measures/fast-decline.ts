import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const fastDecline: Measure = {
  id: "fast-decline",
  column: "fast_decline",
  theme: "monitoring",
  name: "Fast decline",
  question: "Who is losing kidney function fast?",
  direction: "down",
  actor: "nephrologist",
  action:
    "Confirm with a repeat; look for obstruction, drugs that harm the kidney, pressure and protein in the urine. Clinicians decide; local policy applies.",
  metWords: "eGFR falling by 5 or more a year",
  notMetWords: "eGFR falling by less than 5 a year, steady or rising",
  population: [
    hasCkd,
    {
      sql: "p.slope is not null",
      words: "at least 4 days with an eGFR in the last 24 months, the first a year or more before the last",
      evidence: "slope",
    },
  ],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.slope <= -5",
    words: "a slope of -5 mL/min/1.73 m² a year or steeper",
    evidence: "slope",
  },
  exception: [],
  fact: null,
  news: { gained: ["slope_to"], lost: ["slope_to"] },
  params: {},
  settings: [...panelSettings, ...ckdSettings],
  source:
    "Rapid progression, a sustained decline of more than 5 a year: KDIGO 2012 CKD guideline, Kidney Int Suppl 3:1-150, section 2.1, doi:10.1038/kisup.2012.73 (from memory); least squares over 24 months: common practice, no source",
}
