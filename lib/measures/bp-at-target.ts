import { hasCkd, notMeasured, usualExclusions } from "./populations"
import { ckdSettings, panelSettings, pressureSettings, targetSettings } from "./setting-groups"
import type { Measure } from "./types"

export const bpAtTarget: Measure = {
  id: "bp-at-target",
  column: "bp_at_target",
  theme: "pressure",
  name: "Pressure at target",
  question: "How many have their pressure at target?",
  direction: "up",
  actor: "nephrologist",
  action:
    "Confirm the reading, out of the office where possible; then look at adherence, salt, drugs and doses. Clinicians decide; local policy applies.",
  metWords: "pressure at target",
  notMetWords: "pressure above target",
  population: [hasCkd],
  excluded: usualExclusions,
  unknown: [notMeasured],
  met: {
    sql: "p.at_target",
    words: "systolic and diastolic below the target of the reading's source",
    evidence: "pressure",
  },
  exception: [
    {
      sql: "p.bp_decision is not null",
      words: "a clinician's decision on pressure is in force",
      evidence: "decisions",
    },
  ],
  fact: "bp_on",
  news: { gained: ["bp_on"], lost: ["bp_on"] },
  params: {},
  settings: [...panelSettings, ...ckdSettings, ...pressureSettings, ...targetSettings, "decisions.months"],
  source:
    "Target below 130/80 in CKD: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 9.3, doi:10.1161/HYP.0000000000000065",
}
