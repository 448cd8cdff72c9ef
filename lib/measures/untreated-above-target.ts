import { hasCkd, notMeasured, usualExclusions } from "./populations"
import { ckdSettings, classSettings, panelSettings, pressureSettings, targetSettings } from "./setting-groups"
import type { Measure } from "./types"

export const untreatedAboveTarget: Measure = {
  id: "untreated-above-target",
  column: "untreated_above_target",
  theme: "pressure",
  name: "Above target, no pressure drug",
  question: "Who is above target and on no blood-pressure drug at all?",
  direction: "down",
  actor: "nephrologist",
  action:
    "Confirm the reading, out of the office where possible; see whether a drug was missed in the list, stopped or never started. Clinicians decide; local policy applies.",
  metWords: "above target and on no pressure drug",
  notMetWords: "at target or on a pressure drug",
  population: [hasCkd],
  excluded: usualExclusions,
  unknown: [notMeasured],
  met: {
    sql: "not p.at_target and p.class_count = 0",
    words: "systolic or diastolic not below the target, and no class of pressure drugs active",
    evidence: "pressure",
  },
  exception: [],
  fact: "bp_on",
  news: { gained: ["bp_on", "class_stopped_on"], lost: ["bp_on", "class_started_on"] },
  params: {},
  settings: [...panelSettings, ...ckdSettings, ...pressureSettings, ...targetSettings, ...classSettings],
  source:
    "Drugs with pressure above target: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 9.3, doi:10.1161/HYP.0000000000000065",
}
