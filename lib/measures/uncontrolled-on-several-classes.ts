import { notMeasured, pressureOlderThanClass, usualExclusions } from "./populations"
import { classSettings, ckdSettings, panelSettings, pressureSettings, targetSettings } from "./setting-groups"
import type { Measure } from "./types"

export const uncontrolledOnSeveralClasses: Measure = {
  id: "uncontrolled-on-several-classes",
  column: "uncontrolled_on_several_classes",
  theme: "pressure",
  name: "Above target on several classes",
  question: "Who is above target despite {drugs.several} or more classes?",
  direction: "down",
  actor: "nephrologist",
  action:
    "Before another drug: is the pressure high outside the office, are the drugs taken, are doses at their usual maximum, is there a diuretic, does another drug or salt raise it? Clinicians decide; local policy applies.",
  metWords: "above target on {drugs.several} or more classes",
  notMetWords: "at target on {drugs.several} or more classes",
  population: [
    {
      sql: "p.class_count >= cast($several_classes as integer)",
      words: "{drugs.several} or more classes of pressure drugs active",
      evidence: "drugs",
    },
    {
      sql: "p.ckd or p.hypertension",
      words: "chronic kidney disease or a hypertension problem",
      evidence: "kidney",
    },
  ],
  excluded: usualExclusions,
  unknown: [notMeasured, pressureOlderThanClass],
  met: {
    sql: "not p.at_target",
    words: "systolic or diastolic not below the target of the reading's source",
    evidence: "pressure",
  },
  exception: [],
  fact: "bp_on",
  news: { gained: ["bp_on"], lost: ["bp_on"] },
  params: { several_classes: "drugs.several" },
  settings: [
    ...panelSettings,
    ...ckdSettings,
    ...pressureSettings,
    ...targetSettings,
    ...classSettings,
    "drugs.several",
  ],
  source:
    "Apparent treatment resistance: Carey 2018, AHA scientific statement, Hypertension 72:e53-e90, doi:10.1161/HYP.0000000000000084; adherence and technique are not in the extract",
}
