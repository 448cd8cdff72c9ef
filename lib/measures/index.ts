import { acrTested } from "./acr-tested"
import { bpAtTarget } from "./bp-at-target"
import { bpUnder14090 } from "./bp-under-140-90"
import { dualRasBlockade } from "./dual-ras-blockade"
import { lowPressureOnDrugs } from "./low-pressure-on-drugs"
import { potassiumHighOnRas } from "./potassium-high-on-ras"
import { pressureMeasured } from "./pressure-measured"
import { rasBlockerInAlbuminuria } from "./ras-blocker-in-albuminuria"
import { sglt2InCkd } from "./sglt2-in-ckd"
import type { Measure } from "./types"
import { uncontrolledOnSeveralClasses } from "./uncontrolled-on-several-classes"
import { untreatedAboveTarget } from "./untreated-above-target"

/** Every measure with standings, in the order in which they are listed. */
export const measures: readonly Measure[] = [
  bpAtTarget,
  bpUnder14090,
  pressureMeasured,
  uncontrolledOnSeveralClasses,
  untreatedAboveTarget,
  rasBlockerInAlbuminuria,
  acrTested,
  potassiumHighOnRas,
  dualRasBlockade,
  lowPressureOnDrugs,
  sglt2InCkd,
]

export function findMeasure(id: string): Measure | undefined {
  return measures.find((measure) => measure.id === id)
}
