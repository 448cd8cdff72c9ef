import { soonReasons, urgentReasons } from "./pressing-reasons"
import { aheadReasons, dueReasons, treatmentReasons } from "./routine-reasons"
import type { Reason } from "./types"

/** Every reason to contact a person, in the order in which a row shows them unless the clinic sets another. */
export const reasons: readonly Reason[] = [
  ...urgentReasons,
  ...soonReasons,
  ...treatmentReasons,
  ...dueReasons,
  ...aheadReasons,
]
