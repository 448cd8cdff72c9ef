import { adultsTo85, ckdStage5, usualExclusions } from "./populations"
import { panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const bpUnder14090: Measure = {
  id: "bp-under-140-90",
  column: "bp_under_140_90",
  theme: "pressure",
  name: "High pressure under 140/90",
  question: "How many with a hypertension diagnosis are under 140/90 on the day last measured?",
  direction: "up",
  actor: "nephrologist",
  action:
    "Repeat the reading in the same visit when it is high, and confirm it out of the office. Clinicians decide; local policy applies.",
  metWords: "under 140/90 on the day last measured",
  notMetWords: "140/90 or above on the day last measured",
  population: [
    {
      sql: "p.hypertension_for_half_year",
      words: "a hypertension problem active for at least six months",
      evidence: "problems",
    },
    adultsTo85,
  ],
  excluded: [...usualExclusions, ckdStage5],
  unknown: [
    {
      sql: "p.counted_day is null",
      words: "no counted reading in the last 12 months",
      evidence: "counted day",
    },
  ],
  met: {
    sql: "p.counted_lowest_systolic < 140 and p.counted_lowest_diastolic < 90",
    words:
      "on the latest day with a counted reading the lowest systolic is under 140 and the lowest diastolic under 90",
    evidence: "counted day",
  },
  exception: [],
  fact: "counted_day",
  news: { gained: ["counted_day"], lost: ["counted_day"] },
  params: {},
  settings: [...panelSettings, "egfr.windowMonths"],
  source:
    "Adapted from CMS165, Controlling High Blood Pressure: rolling 12 months and all hypertension codes; its frailty and nursing-home exclusions are not in the extract",
}
