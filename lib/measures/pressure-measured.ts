import { hasCkd, usualExclusions } from "./populations"
import type { Measure } from "./types"

export const pressureMeasured: Measure = {
  id: "pressure-measured",
  column: "pressure_measured",
  theme: "pressure",
  name: "Pressure measured",
  question: "How many have a usable reading?",
  direction: "up",
  metWords: "a usable pressure in the window",
  notMetWords: "no usable pressure in the window",
  population: [hasCkd],
  excluded: usualExclusions,
  unknown: [],
  met: {
    sql: "p.systolic is not null",
    words: "a representative pressure in the window",
    evidence: "pressure",
  },
  exception: [],
  fact: null,
  params: {},
  source: "common practice, no source",
}
