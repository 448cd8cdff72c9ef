import { adultsTo85, ckdStage5, usualExclusions } from "./populations"
import { panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const kidneyTestsInDiabetes: Measure = {
  id: "kidney-tests-in-diabetes",
  column: "kidney_tests_in_diabetes",
  theme: "monitoring",
  name: "Kidney tests in diabetes",
  question: "Who with diabetes had eGFR and urine albumin both measured in the last 12 months?",
  direction: "up",
  actor: "care coordinator",
  action:
    "Ask for the test that is missing: blood for eGFR, urine for albumin. The clinic decides what is due; local policy applies.",
  metWords: "eGFR and urine albumin both measured in the last 12 months",
  notMetWords: "eGFR or urine albumin missing in the last 12 months",
  population: [{ sql: "p.diabetes", words: "a diabetes problem active", evidence: "problems" }, adultsTo85],
  excluded: [...usualExclusions, ckdStage5],
  unknown: [],
  met: {
    sql: "p.has_egfr_in_year and p.has_acr_in_year",
    words: "an eGFR outside hospital stays and an ACR in the last 12 months; a PCR does not serve",
    evidence: "kidney tests",
  },
  exception: [],
  fact: null,
  news: { gained: ["egfr_tested_on", "acr_last_on"], lost: [] },
  params: {},
  settings: [...panelSettings, "egfr.windowMonths"],
  source: "After CMS951, Kidney Health Evaluation, with rolling 12 months instead of the calendar year",
}
