import { may } from "../../../lib/access/permissions"
import type { DecisionTopic } from "../../../lib/domain/clinician-decisions"

/** Whether somebody with these roles decides about a topic: who treats about all, a dietitian about diet. */
export function mayDecide(holder: Parameters<typeof may>[0], topic: DecisionTopic): boolean {
  return may(holder, topic === "diet" ? "decisions.make" : "decisions.treat")
}
