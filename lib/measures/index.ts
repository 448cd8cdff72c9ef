import { acrTested } from "./acr-tested"
import { bpAtTarget } from "./bp-at-target"
import { bpUnder14090 } from "./bp-under-140-90"
import { pressureMeasured } from "./pressure-measured"
import { rasBlockerInAlbuminuria } from "./ras-blocker-in-albuminuria"
import type { Measure } from "./types"
import { uncontrolledOnSeveralClasses } from "./uncontrolled-on-several-classes"

/** Every measure with standings, in the order in which they are listed. */
export const measures: readonly Measure[] = [
  bpAtTarget,
  bpUnder14090,
  pressureMeasured,
  uncontrolledOnSeveralClasses,
  rasBlockerInAlbuminuria,
  acrTested,
]

export function findMeasure(id: string): Measure | undefined {
  return measures.find((measure) => measure.id === id)
}
