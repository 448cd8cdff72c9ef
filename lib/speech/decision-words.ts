import type {
  ClinicianDecision,
  DecisionKind,
  DecisionProblem,
  DecisionTopic,
} from "../domain/clinician-decisions"
import { sentenceCase } from "./format"

/** What is decided about, as screens call it. */
export const decisionTopicWords: Readonly<Record<DecisionTopic, string>> = {
  ras_blocker: "ACE inhibitor or ARB",
  pressure: "blood pressure",
  sglt2_inhibitor: "SGLT2 inhibitor",
  diet: "diet",
}

/** A kind as the heading of its reasons, by topic: of pressure and diet a plan is no start of a drug. */
export function decisionKindWords(kind: DecisionKind, topic: DecisionTopic): string {
  if (kind !== "planned") return sentenceCase(kind)
  if (topic === "pressure") return "Change of treatment planned"
  return topic === "diet" ? "Visit planned" : "Start planned"
}

/** What was decided and why, "Not tolerated: cough". */
export function decidedWords({
  kind,
  topic,
  reason,
}: Pick<ClinicianDecision, "kind" | "topic" | "reason">): string {
  const kindWords = decisionKindWords(kind, topic)
  return reason === "other" ? kindWords : `${kindWords}: ${reason}`
}

export const decisionProblemWords: Readonly<Record<DecisionProblem, string>> = {
  "note is missing": "“Other” needs a note that says what.",
  "day is missing": "Until when it is deferred is needed.",
  "day is not later": "The day has to be later than today.",
  "day is too far": "The day may be five years away at most; somebody looks again then.",
}
