import type { ReasonId } from "../domain/reason-ids"

/**
 * The reasons of which it is told what came of them, each with those that it may turn into: a pressure that has become too old
 * to count, or a worse one, is not resolved. Urgent reasons are left out, since they are no matter of a list of calls, and
 * those that end by themselves with the days. Source: common practice, no source.
 */
export const turnedInto: Readonly<Partial<Record<ReasonId, readonly ReasonId[]>>> = {
  "potassium-high": ["potassium-very-high"],
  "pressure-high": ["pressure-very-high", "pressure-not-measured"],
  "pressure-low-on-drugs": ["pressure-not-measured"],
  "protein-without-ras-blocker": ["urine-albumin-due"],
  "above-target-on-several": ["above-target", "pressure-high", "pressure-very-high", "pressure-not-measured"],
  "above-target": ["above-target-on-several", "pressure-high", "pressure-very-high", "pressure-not-measured"],
  "pressure-not-measured": [],
  "urine-albumin-due": [],
  "kidney-tests-due": [],
  "diet-record-due": [],
  "lost-to-follow-up": [],
  "pressure-falls-out": ["pressure-not-measured"],
  "urine-falls-out": ["urine-albumin-due"],
}
