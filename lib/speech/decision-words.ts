import type {
  ClinicianDecision,
  DecisionKind,
  DecisionProblem,
  DecisionTopic,
} from "../domain/clinician-decisions"
import { day, dayInFull, listed, sentenceCase } from "./format"

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

/** What is said of a decision just made: the figures have it with the next build where they stand at its day, and later else. */
export function recordedWords({ today, asOf }: { today: string; asOf: string }): string {
  if (asOf >= today) return "Recorded. The figures follow in a moment."
  return `Recorded. It counts in the figures once they reach ${dayInFull(today)}; they stand at ${dayInFull(asOf)}.`
}

/** Since when what is decided counts, where the figures do not reach to today; null where they do. */
export function countsFromWords({ today, asOf }: { today: string; asOf: string }): string | null {
  if (asOf >= today) return null
  return `What is decided or taken back counts in the measures from its day on; the figures stand at ${dayInFull(asOf)}.`
}

export const decisionProblemWords: Readonly<Record<DecisionProblem, string>> = {
  "note is missing": "“Other” needs a note that says what.",
  "day is missing": "Until when it is deferred is needed.",
  "day is not later": "The day has to be later than today.",
  "day is too far": "The day may be five years away at most; somebody looks again then.",
}

/** What became of a plan as of a day. */
type PlanSeen = {
  due_on: string
  started_on: string | null
  state: "started" | "taken back" | "waiting" | "not started in time"
  potassium_on: string | null
  creatinine_on: string | null
  tests: "done" | "waiting" | "missing" | null
}

/** "Not started by 20 Oct 2026", "Started 3 Sep 2026; no potassium in the 28 days after it". */
export function planWords(plan: PlanSeen): string {
  if (plan.started_on === null) {
    if (plan.state === "taken back") return "Taken back before a start"
    return `${plan.state === "waiting" ? "To be started by" : "Not started by"} ${day(plan.due_on)}`
  }
  const late = plan.started_on > plan.due_on ? `, later than ${day(plan.due_on)}` : ""
  const tests = testWords(plan)
  return `Started ${day(plan.started_on)}${late}${tests === null ? "" : `; ${tests}`}`
}

function testWords({ tests, potassium_on, creatinine_on }: PlanSeen): string | null {
  if (tests === null) return null
  const each = [["potassium", potassium_on] as const, ["creatinine", creatinine_on] as const]
  const done = each.flatMap(([test, on]) => (on === null ? [] : [`${test} ${day(on)}`]))
  const open = each.flatMap(([test, on]) => (on === null ? [test] : []))
  if (open.length === 0) return listed(done)
  const awaited =
    tests === "waiting"
      ? `${listed(open)} to be tested within 28 days`
      : `no ${open.join(" and no ")} in the 28 days after it`
  return [...done, awaited].join(", ")
}
