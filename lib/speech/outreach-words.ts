import { withSettings } from "../domain/setting-words"
import type { Settings } from "../domain/settings"
import { reasons } from "../outreach/reasons"
import { dueReasons } from "../outreach/routine-reasons"
import { counted, day, lab, monthShort, percentTenth, pressure } from "./format"

/** A reason with the fact behind it, as the list or a case has it. */
export type ReasonFact = {
  reason: string
  factOn: string | null
  value: number | null
  secondValue: number | null
  comparator: string | null
  fallsOutOn: string | null
}

/** A reason with its fact: "Pressure very high 188/112, 30 Oct 2026"; "Urine albumin overdue, last Aug 2025". */
export function reasonWords(fact: ReasonFact, settings: Settings): string {
  const { name, detail } = reasonParts(fact, settings)
  if (detail === "") return name
  return fact.value !== null && detail.startsWith(amountOf(fact)) ? `${name} ${detail}` : `${name}, ${detail}`
}

/** The same in two: what is set bold, and the fact after it, which may be nothing. */
export function reasonParts(fact: ReasonFact, settings: Settings): { name: string; detail: string } {
  const known = reasons.find((one) => one.id === fact.reason)
  // A case may speak of a reason that a later program no longer has.
  if (!known) return { name: fact.reason.replaceAll("-", " "), detail: "" }
  const detail = [amountOf(fact), momentOf(fact)].filter((words) => words !== "").join(", ")
  return { name: withSettings(known.name, settings), detail }
}

/** The role that acts on a reason; null where a later program no longer has it. */
export function actorOf(fact: { reason: string }): string | null {
  return reasons.find((one) => one.id === fact.reason)?.actor ?? null
}

/** What takes a reason off; null where a later program no longer has it. */
export function endsWithOf(fact: { reason: string }): string | null {
  return reasons.find((one) => one.id === fact.reason)?.endsWith ?? null
}

/** The numbers behind a reason with their unit: a pair of pressures in mmHg, or one amount. */
export type AmountParts =
  | { kind: "pressure"; systolic: number; diastolic: number }
  | { kind: "amount"; number: number; comparator: string | null; unit: string; decimals: number }

/** The numbers of a reason as they are said; null where it has none. */
export function amountParts({ reason, value, secondValue, comparator }: ReasonFact): AmountParts | null {
  const known = reasons.find((one) => one.id === reason)
  if (value === null) return null
  if (secondValue !== null) return { kind: "pressure", systolic: value, diastolic: secondValue }
  if (known?.value.kind !== "amount") return null
  const { unit } = known.value
  return { kind: "amount", number: value, comparator, unit, decimals: unit === "mmol/L" ? 1 : 0 }
}

function amountOf(fact: ReasonFact): string {
  const parts = amountParts(fact)
  if (parts === null) return ""
  return parts.kind === "pressure" ? pressure(parts.systolic, parts.diastolic) : lab(parts)
}

function momentOf({ reason, factOn, fallsOutOn }: ReasonFact): string {
  if (fallsOutOn !== null) return `from ${day(fallsOutOn)}`
  if (dueReasons.some((one) => one.id === reason)) return lastWords(factOn)
  return factOn === null ? "" : day(factOn)
}

function lastWords(factOn: string | null): string {
  return factOn === null ? "none on record" : `last ${monthShort(factOn.slice(0, 7))}`
}

/** What decides where somebody stands in the order, in its order: why they are here, and why above whoever has less of it. */
export function placeWords(row: {
  tier: string
  risk_cell: string | null
  failure_risk_2_years: number | null
  reasons: number
  oldest_on: string | null
  next_visit_on: string | null
}): string {
  const { failure_risk_2_years: risk, oldest_on: oldestOn, next_visit_on: nextVisitOn } = row
  return [
    row.tier,
    `risk ${row.risk_cell ?? "not known"}`,
    risk === null ? "2-year failure risk not known" : `2-year failure risk ${percentTenth(risk)}`,
    counted(row.reasons, "reason", "reasons"),
    oldestOn === null ? "one without a fact" : `oldest fact ${day(oldestOn)}`,
    nextVisitOn === null ? "no visit booked" : `next visit ${day(nextVisitOn)}`,
  ].join(", ")
}
