import { usualExclusions } from "./populations"
import { classSettings, panelSettings } from "./setting-groups"
import type { Measure } from "./types"

export const followedAfterStopping: Measure = {
  id: "followed-after-stopping",
  column: "followed_after_stopping",
  theme: "monitoring",
  name: "Pressure followed after a stop",
  question: "A drug class was stopped: is anyone still measuring?",
  direction: "up",
  actor: "nurse",
  action: "Ask for a reading at home or in the office. Clinicians decide; local policy applies.",
  metWords: "a reading within 30 days of every stop",
  notMetWords: "no reading within 30 days of a stop",
  population: [
    {
      sql: "p.are_stops_followed is not null",
      words: "a class of pressure drugs stopped 30 to 119 days ago and is not active",
      evidence: "drug stops",
    },
  ],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.are_stops_followed",
    words: "a counted reading 1 to 30 days after every such stop",
    evidence: "drug stops",
  },
  exception: [],
  fact: null,
  news: { gained: ["followed_stop_on"], lost: ["followed_stop_on"] },
  params: {},
  settings: [...panelSettings, ...classSettings],
  source: "Whether pressure is followed after a stop, common practice, no source",
}
