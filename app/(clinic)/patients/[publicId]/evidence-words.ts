import { classWords } from "../../../_ui/class-words"
import { counted, day, lab, pressure } from "../../../../lib/speech/format"
import { placeWords } from "../../../../lib/speech/pressure-place"
import type { Condition } from "../../../../lib/measures/types"
import type { EvidenceFact } from "../../../../lib/questions/evidence-fact"
import { monitoringPhrase } from "./monitoring-words"

/** One fact behind a condition: the value, when, and the rows it came from. */
export type EvidencePhrase = { value: string; rest: string; sources: readonly string[] }

/** The limits of the pressure that represents the person, for a phrase. */
export type PressureLimits = { systolic: number | null; diastolic: number | null }

/** What stands behind a condition, fact by fact; what is not on record is said too. */
export function evidencePhrases(
  { condition, holds }: { condition: Condition; holds: boolean },
  facts: readonly EvidenceFact[],
  limits: PressureLimits,
): EvidencePhrase[] {
  const behind = facts.filter((fact) => isBehind(condition, fact))
  if (behind.length === 0) return [{ value: absentWords(condition), rest: "", sources: [] }]
  const isTestLate =
    condition.evidence === "urine" && condition.sql.includes("is_urine_tested_in_year") && !holds
  return behind.map((fact) => ({
    ...(isTestLate ? lateTest(fact) : factPhrase(fact, limits)),
    sources: fact.sources,
  }))
}

/** Conditions name what they ask in their SQL; of the facts of one kind only those asked for stand behind it. */
function isBehind(condition: Condition, fact: EvidenceFact): boolean {
  const asks = (word: string) => condition.sql.includes(word)
  if (fact.topic === "problem")
    return asks(problemColumn(fact.word ?? "")) && condition.evidence !== "pressure"
  if (condition.evidence === "kidney" && fact.evidence === "urine")
    return asks("p.ckd") && fact.topic === "urine"
  if (fact.topic === "decision") return asks(decisionColumns[fact.word ?? ""] ?? "no column")
  if (condition.evidence === "risk cell") return fact.topic === "egfr" || fact.topic === "urine"
  if (condition.evidence === "kidney tests" && fact.topic === "urine") return asks("is_urine_tested_in_year")
  if (fact.evidence !== condition.evidence) return false
  if (fact.topic === "tests due") return asks("tests_due")
  if (fact.topic === "acr test") return asks("has_acr_in_year")
  if (fact.topic === "class") return asks("class")
  if (fact.topic === "kind") return (kindColumns[fact.word ?? ""] ?? []).some(asks)
  if (fact.topic === "withdrawal" || fact.topic === "dose reduced") return asks("withdrawal")
  if (fact.topic === "class stopped") return asks("are_stops_followed")
  if (fact.topic === "ras stopped") return asks("on_ras_blocker")
  if (fact.topic === "egfr run") return asks("p.ckd")
  if (fact.topic === "confirming urine") return asks("albuminuria")
  return true
}

/** The columns of the wide row that speak of a kind of drug, and of a decision's topic. */
const kindColumns: Readonly<Record<string, readonly string[]>> = {
  ace_inhibitor: ["on_ras_blocker", "on_any_ras_blocker", "has_dual_ras_blockade"],
  arb: ["on_ras_blocker", "on_any_ras_blocker", "has_dual_ras_blockade"],
  direct_renin_inhibitor: ["on_any_ras_blocker", "has_dual_ras_blockade"],
  steroidal_mra: ["on_steroidal_mra"],
  finerenone: ["on_finerenone"],
  sglt2_inhibitor: ["on_sglt2_inhibitor"],
}

const decisionColumns: Readonly<Record<string, string>> = {
  pressure: "bp_decision",
  ras_blocker: "ras_decision",
  sglt2_inhibitor: "sglt2_decision",
  diet: "diet_decision",
}

function problemColumn(condition: string): string {
  return condition === "ckd_stage_5" ? "ckd_5" : condition
}

function problemWords(condition: string): string {
  if (condition === "ckd") return "CKD"
  return condition === "ckd_stage_5" ? "CKD stage 5" : condition.replaceAll("_", " ")
}

/** The value of a fact and what is told beside it. */
export function factPhrase(fact: EvidenceFact, limits: PressureLimits): Omit<EvidencePhrase, "sources"> {
  const on = fact.day === null ? "" : `on ${day(fact.day)}`
  const since = fact.since === null ? "" : `since ${day(fact.since)}`
  const rows = fact.rows ?? 0
  switch (fact.topic) {
    case "representative":
      return { value: pairWords(fact), rest: representativeRest(fact, limits) }
    case "latest counted":
      return { value: "none in the window", rest: `the last that counted was ${pairWords(fact)} ${on}` }
    case "counted day":
      return {
        value: `lowest ${pressure(fact.first ?? 0, fact.second ?? 0)}`,
        rest: `of ${counted(rows, "reading", "readings")} ${on}`,
      }
    case "egfr":
      return {
        value: `eGFR ${fact.first ?? ""} (${fact.word ?? ""})`,
        rest: `${on}${fact.since ? `, under 60 without a break ${since}` : ""}`,
      }
    case "egfr run":
      return { value: `eGFR ${fact.first ?? ""}`, rest: `${on}, where the run under 60 begins` }
    case "urine":
    case "confirming urine":
      return { value: urineWords(fact), rest: `${on}, ${fact.detail ?? ""}` }
    case "earlier pressure":
      return { value: pairWords(fact), rest: on }
    case "kind":
    case "class":
      return { value: classWords(fact.word ?? ""), rest: `${fact.detail ?? ""}, ${since}` }
    case "class started":
      return { value: `${classWords(fact.word ?? "")} started`, rest: `${on}: ${fact.detail ?? ""}` }
    case "dose raised":
    case "dose reduced":
      return {
        value: `${fact.word ?? ""} ${fact.topic === "dose raised" ? "raised" : "reduced"}`,
        rest: `${on}, from ${fact.first ?? ""} to ${fact.second ?? ""} ${fact.detail ?? ""} a day`,
      }
    case "withdrawal":
    case "class stopped":
      return { value: `${classWords(fact.word ?? "")} stopped`, rest: `${on}; ${readingAfterWords(fact)}` }
    case "ras start":
      return {
        value: `${fact.detail ?? ""} started`,
        rest: `${on}; potassium ${daysAfterWords(fact.first)}, creatinine ${daysAfterWords(fact.second)}`,
      }
    case "ras stopped":
      return { value: `${fact.word ?? ""} stopped`, rest: `${on}${fact.detail ? `: ${fact.detail}` : ""}` }
    case "potassium":
      return { value: `potassium ${potassiumWords(fact)}`, rest: on }
    case "problem":
      return { value: problemWords(fact.word ?? ""), rest: `${fact.detail ?? ""}, ${since}` }
    case "dialysis visit":
      return { value: counted(rows, "dialysis visit", "dialysis visits"), rest: `the latest ${on}` }
    case "allergy":
      return { value: fact.detail ?? "", rest: since }
    case "decision":
      return {
        value: fact.detail ?? "",
        rest: fact.day === null ? since : `${since}, until ${day(fact.day)}`,
      }
    case "egfr tests":
    case "tests due":
    case "acr test":
    case "slope":
    case "failure risk":
    case "risk acr":
    case "home average":
    case "diet mean":
    case "last diet record":
    case "dietitian visit":
      return monitoringPhrase(fact.topic, fact)
    case "age":
      return { value: `age ${fact.first ?? ""}`, rest: fact.since === null ? "" : `born ${day(fact.since)}` }
  }
}

function readingAfterWords(fact: EvidenceFact): string {
  return fact.since === null
    ? "no counted reading in the 30 days after"
    : `the next counted reading on ${day(fact.since)}`
}

function daysAfterWords(days: number | null): string {
  return days === null ? "not in 28 days" : `after ${counted(days, "day", "days")}`
}

/** A test that was asked for within the year, and is older. */
function lateTest(fact: EvidenceFact): Omit<EvidencePhrase, "sources"> {
  const on = fact.day === null ? "" : ` on ${day(fact.day)}`
  return { value: "none in 12 months", rest: `the last was ${urineWords(fact)}${on}, ${fact.detail ?? ""}` }
}

function pairWords(fact: EvidenceFact): string {
  const place = fact.word === "home" || fact.word === "ambulatory" ? fact.word : "office"
  return `${pressure(fact.first ?? 0, fact.second ?? 0)} ${place === "home" ? "at home" : placeWords[place]}`
}

function representativeRest(fact: EvidenceFact, limits: PressureLimits): string {
  const target = `target below ${limits.systolic ?? ""}/${limits.diastolic ?? ""}`
  const end = fact.day === null ? "" : day(fact.day)
  const rows = fact.rows ?? 0
  if (fact.word === "home")
    return `${target}; average of ${counted(rows, "reading", "readings")}, ${fact.since ? day(fact.since) : ""} to ${end}`
  return rows > 1 ? `${target}; mean of ${rows} readings on ${end}` : `${target}; one reading on ${end}`
}

function urineWords(fact: EvidenceFact): string {
  const name = fact.word === "upcr" ? "PCR" : "ACR"
  return `${name} ${lab({ number: fact.first ?? 0, comparator: fact.comparator, unit: "mg/g" })}`
}

function potassiumWords(fact: EvidenceFact): string {
  return lab({ number: fact.first ?? 0, comparator: fact.comparator, unit: "mmol/L", decimals: 1 })
}

function absentWords(condition: Condition): string {
  const words = {
    pressure: "no counted pressure on record",
    "counted day": "no counted reading in 12 months",
    kidney: "no eGFR in the window, no code",
    urine: "no ACR or PCR on record",
    "risk cell": "no eGFR and no urine category in the window",
    "kidney tests": "no eGFR and no urine test on record",
    slope: "too few days with an eGFR",
    "failure risk": "not computable from what is on record",
    home: "no valid home average on record",
    diet: "no diet record",
    dietitian: "no visit to a dietitian on record",
    "earlier pressure": "no counted pressure at that time",
    "drug changes": "no class started, no dose raised",
    "drug stops": "no such stop",
    "RAS blocker starts": "no such start",
    drugs: absentDrug(condition),
    potassium: "no potassium on record",
    problems: "none on the problem list",
    dialysis: "no dialysis on record",
    allergies: "no such record",
    decisions: "no such decision in force",
    person: "not on record",
  } as const
  return words[condition.evidence]
}

function absentDrug({ sql }: Condition): string {
  if (sql.includes("sglt2")) return "no SGLT2 inhibitor active"
  if (sql.includes("on_any_ras_blocker") || sql.includes("dual_ras")) return "no such drug active"
  return sql.includes("ras") ? "no ACE inhibitor or ARB on record" : "no counted class active"
}
