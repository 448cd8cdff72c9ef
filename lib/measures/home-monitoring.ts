import { usualExclusions } from "./populations"
import { homeSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const homeMonitoring: Measure = {
  id: "home-monitoring",
  column: "home_monitoring",
  theme: "pressure",
  name: "Measures at home",
  question: "Who with a hypertension problem measures at home?",
  direction: "up",
  actor: "nurse",
  action:
    "Offer a validated device with the right cuff, and show how to measure twice in the morning and twice in the evening for some days. Clinicians decide; local policy applies.",
  metWords: "a home average in the last 12 months",
  notMetWords: "no home average in the last 12 months",
  population: [{ sql: "p.hypertension", words: "a hypertension problem active", evidence: "problems" }],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.has_home_average_in_year",
    words:
      "at least {bp.homeMinReadings} home readings on at least {bp.homeMinDays} days within {bp.homeWindowDays} days, ending in the last 12 months",
    evidence: "home",
  },
  exception: [],
  fact: null,
  news: { gained: ["home_average_on"], lost: [] },
  params: {},
  settings: [...panelSettings, ...homeSettings],
  source:
    "Home readings beside standardised office pressure: KDIGO 2021 blood pressure guideline, Kidney Int 99(3S):S1-S87, practice point 1.2, doi:10.1016/j.kint.2020.11.003; the count of readings: common practice, no source",
}
