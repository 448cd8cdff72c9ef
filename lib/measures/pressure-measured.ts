import { hasCkd, usualExclusions } from "./populations"
import { ckdSettings, panelSettings, pressureSettings } from "./setting-groups"
import type { Measure } from "./types"

export const pressureMeasured: Measure = {
  id: "pressure-measured",
  column: "pressure_measured",
  theme: "pressure",
  name: "Pressure measured",
  question: "How many have a usable reading?",
  direction: "up",
  actor: "care coordinator",
  action: "Book a pressure check, or ask for a week of home readings. Local policy says how soon.",
  metWords: "a usable pressure in the last {bp.windowMonths} months",
  notMetWords: "no usable pressure in the last {bp.windowMonths} months",
  population: [hasCkd],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.systolic is not null",
    words: "a representative pressure in the last {bp.windowMonths} months",
    evidence: "pressure",
  },
  exception: [],
  fact: null,
  news: { gained: ["bp_on"], lost: [] },
  params: {},
  settings: [...panelSettings, ...ckdSettings, ...pressureSettings],
  source: "common practice, no source",
}
