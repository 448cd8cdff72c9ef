import { abruptStop } from "./abrupt-stop"
import { acrTested } from "./acr-tested"
import { bpAtTarget } from "./bp-at-target"
import { bpUnder14090 } from "./bp-under-140-90"
import { dietSodiumWithinLimit } from "./diet-sodium-within-limit"
import { dualRasBlockade } from "./dual-ras-blockade"
import { failureRisk } from "./failure-risk"
import { fastDecline } from "./fast-decline"
import { followedAfterStopping } from "./followed-after-stopping"
import { homeMonitoring } from "./home-monitoring"
import { kidneyTestsInDiabetes } from "./kidney-tests-in-diabetes"
import { lowPressureOnDrugs } from "./low-pressure-on-drugs"
import { monitoringOnSchedule } from "./monitoring-on-schedule"
import { planWhenHigh } from "./plan-when-high"
import { potassiumHighOnRas } from "./potassium-high-on-ras"
import { pressureMeasured } from "./pressure-measured"
import { rasBlockerInAlbuminuria } from "./ras-blocker-in-albuminuria"
import { rasStartChecked } from "./ras-start-checked"
import { seenByDietitian } from "./seen-by-dietitian"
import { sglt2InCkd } from "./sglt2-in-ckd"
import type { Measure } from "./types"
import { uncontrolledOnSeveralClasses } from "./uncontrolled-on-several-classes"
import { untreatedAboveTarget } from "./untreated-above-target"

/** Every measure with standings, in the order in which they are listed. */
export const measures: readonly Measure[] = [
  bpAtTarget,
  bpUnder14090,
  pressureMeasured,
  planWhenHigh,
  uncontrolledOnSeveralClasses,
  untreatedAboveTarget,
  rasBlockerInAlbuminuria,
  dietSodiumWithinLimit,
  acrTested,
  kidneyTestsInDiabetes,
  monitoringOnSchedule,
  rasStartChecked,
  potassiumHighOnRas,
  dualRasBlockade,
  lowPressureOnDrugs,
  abruptStop,
  followedAfterStopping,
  sglt2InCkd,
  fastDecline,
  failureRisk,
  seenByDietitian,
  homeMonitoring,
]

export function findMeasure(id: string): Measure | undefined {
  return measures.find((measure) => measure.id === id)
}
