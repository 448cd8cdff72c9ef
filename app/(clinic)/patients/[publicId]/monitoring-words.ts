import { counted, day, lab, milligrams, pressure } from "../../../../lib/speech/format"
import type { EvidenceFact, MonitoringTopic } from "../../../../lib/questions/evidence-fact"

/** The value and the rest of a fact on tests, decline, risk, home readings, diet or the dietitian. */
export function monitoringPhrase(
  topic: MonitoringTopic,
  fact: EvidenceFact,
): { value: string; rest: string } {
  const on = fact.day === null ? "" : `on ${day(fact.day)}`
  const span = fact.since === null || fact.day === null ? "" : `${day(fact.since)} to ${day(fact.day)}`
  const rows = fact.rows ?? 0
  const first = fact.first ?? 0
  const second = fact.second ?? 0
  switch (topic) {
    case "egfr tests":
      return { value: `eGFR on ${counted(rows, "day", "days")} in 12 months`, rest: `the latest ${on}` }
    case "tests due":
      return { value: `${counted(first, "day", "days")} a year asked`, rest: `of ${fact.word ?? ""}` }
    case "acr test":
    case "risk acr":
      return {
        value: `ACR ${lab({ number: first, comparator: fact.comparator, unit: "mg/g" })}`,
        rest: `${on}, ${fact.detail ?? ""}`,
      }
    case "slope":
      return {
        value: `eGFR ${first > 0 ? "rising" : "falling"} by ${Math.abs(first).toFixed(1)} a year`,
        rest: `standard error ${second.toFixed(1)}; ${counted(rows, "day", "days")} with a value, ${span}`,
      }
    case "failure risk":
      return {
        value: `${(first * 100).toFixed(1)}% within 2 years`,
        rest: `${(second * 100).toFixed(1)}% within 5 years, with the eGFR ${on}`,
      }
    case "home average":
      return {
        value: `${pressure(first, second)} at home`,
        rest: `average of ${counted(rows, "reading", "readings")}, ${span}`,
      }
    case "diet mean":
      return {
        value: `${milligrams(first)} of sodium a day`,
        rest: `${fact.word ?? ""}, ${counted(rows, "record", "records")}, ${span}`,
      }
    case "last diet record":
      return {
        value: "none in 12 months",
        rest: `the last, ${fact.word ?? ""}, was ${milligrams(first)} ${on}`,
      }
    case "dietitian visit":
      return { value: "dietitian visit", rest: `the latest ${on}, ${fact.detail ?? ""}` }
  }
}
