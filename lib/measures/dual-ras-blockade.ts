import { safetyExclusions } from "./populations"
import { panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const dualRasBlockade: Measure = {
  id: "dual-ras-blockade",
  column: "dual_ras_blockade",
  theme: "safety",
  name: "Two kinds of RAS blocker",
  question: "On two kinds of RAS blocker at once?",
  direction: "down",
  actor: "nephrologist",
  action:
    "See whether one of the two was meant to replace the other and is still on the list; the guideline advises against the combination. Clinicians decide; local policy applies.",
  metWords: "two kinds of RAS blocker together",
  notMetWords: "one kind of RAS blocker, or two for a short while",
  population: [
    {
      sql: "p.on_any_ras_blocker",
      words: "an ACE inhibitor, ARB or direct renin inhibitor is active",
      evidence: "drugs",
    },
  ],
  excluded: safetyExclusions,
  unknown: [],
  met: {
    sql: "p.has_dual_ras_blockade",
    words:
      "two of ACE inhibitor, ARB and direct renin inhibitor active on every one of the last {drugs.overlapDays} days",
    evidence: "drugs",
  },
  exception: [],
  fact: null,
  news: { gained: ["ras_kind_started_on"], lost: ["ras_kind_stopped_on"] },
  params: {},
  settings: [...panelSettings, "drugs.graceDays", "drugs.overlapDays"],
  source:
    "KDIGO 2021 blood pressure guideline, recommendation 3.3.1, Kidney Int 99(3S):S1-S87, doi:10.1016/j.kint.2020.11.003",
}
