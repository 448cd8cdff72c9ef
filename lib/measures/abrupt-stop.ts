import { safetyExclusions } from "./populations"
import { panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const abruptStop: Measure = {
  id: "abrupt-stop",
  column: "abrupt_stop",
  theme: "safety",
  name: "Stopped with no taper and no reading",
  question: "Clonidine-like drug or beta blocker stopped with no taper and no reading?",
  direction: "down",
  actor: "nurse",
  action:
    "Ask whether the drug was stopped or ran out, and measure pressure and pulse; these drugs are usually lowered in steps. Clinicians decide; local policy applies.",
  metWords: "stopped with no taper and no reading",
  notMetWords: "stopped, with a taper or a reading",
  population: [
    {
      sql: "p.withdrawal is not null",
      words: "a clonidine-like drug or beta blocker stopped in the last 60 days and is not active",
      evidence: "drug stops",
    },
  ],
  excluded: safetyExclusions,
  unknown: [
    {
      sql: "p.withdrawal = 'waiting'",
      words: "no taper, no reading yet, and the 14 days after the stop are not over",
      evidence: "drug stops",
    },
  ],
  met: {
    sql: "p.withdrawal = 'unwatched'",
    words: "no dose reduction in the 30 days before the stop and no counted reading in the 14 days after",
    evidence: "drug stops",
  },
  exception: [],
  fact: null,
  news: { gained: ["withdrawal_stop_on"], lost: ["withdrawal_stop_on", "withdrawal_started_on"] },
  params: {},
  settings: [...panelSettings, "drugs.graceDays"],
  source:
    "Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, Table 18, doi:10.1161/HYP.0000000000000065; the days are common practice, no source",
}
