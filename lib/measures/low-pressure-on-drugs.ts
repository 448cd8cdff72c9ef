import { notMeasured, pressureOlderThanClass, safetyExclusions } from "./populations"
import { classSettings, panelSettings, pressureSettings } from "./setting-groups"
import type { Measure } from "./types"

export const lowPressureOnDrugs: Measure = {
  id: "low-pressure-on-drugs",
  column: "low_pressure_on_drugs",
  theme: "safety",
  name: "Low pressure on drugs",
  question: "Pressure low on drugs: due for a review?",
  direction: "down",
  actor: "nephrologist",
  action:
    "Ask about dizziness, falls and fluid loss, measure standing, and review which drug could be lowered. Clinicians decide; local policy applies.",
  metWords: "pressure low on a pressure drug",
  notMetWords: "pressure not low on a pressure drug",
  population: [
    { sql: "p.class_count >= 1", words: "a class of pressure drugs is active", evidence: "drugs" },
  ],
  excluded: safetyExclusions,
  unknown: [notMeasured, pressureOlderThanClass],
  met: {
    sql: "p.systolic < cast($low_systolic as double)",
    words: "systolic below {bp.lowSystolic}",
    evidence: "pressure",
  },
  exception: [],
  fact: "bp_on",
  news: { gained: ["bp_on"], lost: ["bp_on"] },
  params: { low_systolic: "bp.lowSystolic" },
  settings: [...panelSettings, ...pressureSettings, ...classSettings, "bp.lowSystolic"],
  source: "Systolic below 110 on treatment, common practice, no source; a reason to look, not to stop",
}
