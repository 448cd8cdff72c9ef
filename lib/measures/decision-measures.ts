import { decisionTopics, type DecisionTopic } from "../domain/clinician-decisions"
import { bpAtTarget } from "./bp-at-target"
import { rasBlockerInAlbuminuria } from "./ras-blocker-in-albuminuria"
import { seenByDietitian } from "./seen-by-dietitian"
import { sglt2InCkd } from "./sglt2-in-ckd"
import type { Measure } from "./types"

/** The measure that asks for what is decided about; the topic concerns whoever it asks. */
export const decisionMeasures: Readonly<Record<DecisionTopic, string>> = {
  ras_blocker: rasBlockerInAlbuminuria.id,
  pressure: bpAtTarget.id,
  sglt2_inhibitor: sglt2InCkd.id,
  diet: seenByDietitian.id,
}

/** The topic whose decisions are an exception of a measure; undefined where none is. */
export function topicOf({ id }: Measure): DecisionTopic | undefined {
  return decisionTopics.find((topic) => decisionMeasures[topic] === id)
}
