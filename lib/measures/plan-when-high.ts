import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, classSettings, panelSettings, pressureSettings, targetSettings } from "./setting-groups"
import type { Measure } from "./types"

export const planWhenHigh: Measure = {
  id: "plan-when-high",
  column: "plan_when_high",
  theme: "pressure",
  name: "Plan when high for three months",
  question: "High for three months: has anything been decided?",
  direction: "up",
  actor: "nephrologist",
  action:
    "See whether a drug was meant to be started or raised, or record why the pressure is left as it is. Clinicians decide; local policy applies.",
  metWords: "above target for three months, something decided",
  notMetWords: "above target for three months, nothing decided",
  population: [
    hasCkd,
    {
      sql: "not p.at_target",
      words: "systolic or diastolic not below the target of the reading's source",
      evidence: "pressure",
    },
    {
      sql: "not p.quarter_ago_at_target",
      words: "the pressure of three months before was not below the target either",
      evidence: "earlier pressure",
    },
    {
      sql: "p.bp_on > months_before(p.as_of, 3)",
      words: "a pressure from the last three months",
      evidence: "pressure",
    },
  ],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.plan_on is not null or p.bp_decision is not null",
    words:
      "in the last three months a class started or a dose was raised, or a clinician's decision on pressure is in force",
    evidence: "drug changes",
  },
  exception: [],
  fact: null,
  news: { gained: ["plan_on", "pressure_decided_on"], lost: ["pressure_undone_on"] },
  params: {},
  settings: [
    ...panelSettings,
    ...ckdSettings,
    ...pressureSettings,
    ...targetSettings,
    ...classSettings,
    "decisions.months",
  ],
  source:
    "A documented plan for pressure above target, after the idea of the retired US quality measure 122; the three months are common practice, no source",
}
