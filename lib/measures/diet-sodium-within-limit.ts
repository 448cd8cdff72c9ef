import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, dietSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const dietSodiumWithinLimit: Measure = {
  id: "diet-sodium-within-limit",
  column: "diet_sodium_within_limit",
  theme: "diet",
  name: "Sodium within the limit",
  question: "How many are within the limit of {diet.limitMg} mg of sodium a day?",
  direction: "up",
  actor: "dietitian",
  action:
    "Ask where the salt comes from, agree on one change, and record the diet again within three months. Clinicians decide; local policy applies.",
  metWords: "mean sodium of {diet.limitMg} mg a day or less",
  notMetWords: "mean sodium above {diet.limitMg} mg a day",
  population: [hasCkd],
  excluded: usualExclusions,
  unknown: [
    {
      sql: "not p.has_diet_record_in_year",
      words: "no diet record and no 24-hour urine sodium in the last 12 months",
      evidence: "diet",
    },
  ],
  met: {
    sql: "p.sodium_in_year_mg <= cast($sodium_limit_mg as double)",
    words:
      "mean sodium of the last {diet.windowDays} days, else of the last 12 months, of {diet.limitMg} mg a day or less",
    evidence: "diet",
  },
  exception: [],
  fact: "sodium_in_year_on",
  news: { gained: ["sodium_in_year_on"], lost: ["sodium_in_year_on"] },
  params: { sodium_limit_mg: "diet.limitMg" },
  settings: [...panelSettings, ...ckdSettings, ...dietSettings, "diet.limitMg"],
  source:
    "Below 2,000 mg a day in CKD: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.3, doi:10.1016/j.kint.2023.10.018",
}
