import { createHash } from "node:crypto"
import type { Direction } from "../../statistics/rate"
import type { Concept, Narrative } from "./types"

/** A population of the code system of HL7 (http://terminology.hl7.org/CodeSystem/measure-population). */
export type PopulationCode =
  | "initial-population"
  | "denominator"
  | "denominator-exclusion"
  | "denominator-exception"
  | "numerator"
  | "measure-population"
  | "measure-observation"

const displays: Record<PopulationCode, string> = {
  "initial-population": "Initial Population",
  denominator: "Denominator",
  "denominator-exclusion": "Denominator Exclusion",
  "denominator-exception": "Denominator Exception",
  numerator: "Numerator",
  "measure-population": "Measure Population",
  "measure-observation": "Measure Observation",
}

export function populationConcept(code: PopulationCode): Concept {
  const system = "http://terminology.hl7.org/CodeSystem/measure-population"
  return { coding: [{ system, code, display: displays[code] }] }
}

/** Those of whom the needed fact is missing: the code system has no word for them, so they have none of its codes. */
export const notMeasuredConcept: Concept = { text: "not measured" }

export function scoringConcept(code: "proportion" | "continuous-variable"): Concept {
  return { coding: [{ system: "http://terminology.hl7.org/CodeSystem/measure-scoring", code }] }
}

export function improvementConcept(direction: Direction): Concept {
  const system = "http://terminology.hl7.org/CodeSystem/measure-improvement-notation"
  return { coding: [{ system, code: direction === "up" ? "increase" : "decrease" }] }
}

/** The address of a measure that stays the same from month to month; its version follows what defines it. */
export function measureUrl(id: string): string {
  return `urn:filtrate:measure:${id}`
}

/** Twelve hexadecimal digits that change with any of the texts. */
export function versionOf(texts: readonly string[]): string {
  return createHash("sha256").update(JSON.stringify(texts)).digest("hex").slice(0, 12)
}

/** An address within a Bundle that is the same whenever the same thing is named (a UUID of version 8, RFC 9562). */
export function entryUrl(name: string): string {
  const hex = createHash("sha256").update(name).digest("hex")
  const parts = [hex.slice(0, 8), hex.slice(8, 12), `8${hex.slice(13, 16)}`, `8${hex.slice(17, 20)}`]
  return `urn:uuid:${parts.join("-")}-${hex.slice(20, 32)}`
}

/** Sentences as the narrative of a resource. */
export function narrative(sentences: readonly string[]): Narrative {
  const paragraphs = sentences.map((sentence) => `<p>${escaped(sentence)}</p>`)
  return {
    status: "generated",
    div: `<div xmlns="http://www.w3.org/1999/xhtml">${paragraphs.join("")}</div>`,
  }
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;")
}
