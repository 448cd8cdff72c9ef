import type { orderKeys } from "../outreach/outreach-list"
import type { OrderFacts } from "../outreach/between-two"
import { reasons } from "../outreach/reasons"
import { counted, day, languageName, percentTenth, sentenceCase } from "./format"

/** How somebody wants to be contacted: "Phone, Norwegian, interpreter needed". */
export function contactWords(person: {
  preferred_contact: string | null
  language: string | null
  interpreter_needed: boolean
}): string {
  const { preferred_contact: channel } = person
  const named = channel === null ? "no preferred way on record" : channel.replace("email", "e-mail")
  return sentenceCase([named, ...spokenParts(person)].join(", "))
}

/** What to speak with somebody, where it is not English: "Norwegian, interpreter needed"; empty where nothing is to be said. */
export function spokenWords(person: { language: string | null; interpreter_needed: boolean }): string {
  return sentenceCase(spokenParts(person).join(", "))
}

function spokenParts({ language, interpreter_needed: isNeeded }: Parameters<typeof spokenWords>[0]) {
  const spoken = language === null || /^en\b/.test(language) ? [] : [languageName(language)]
  return [...spoken, ...(isNeeded ? ["interpreter needed"] : [])]
}

export type Tried = { readonly onDay: string; readonly channel: string; readonly outcome: string }

/** The attempts of this round, the last two with what came of them: "2 attempts: phone, no answer 28 Oct 2026; ...". */
export function attemptsWords(tried: readonly Tried[]): string {
  if (tried.length === 0) return "Not tried yet"
  const last = tried.slice(-2).map((one) => `${one.channel}, ${one.outcome} ${day(one.onDay)}`)
  const told = tried.length > 2 ? ", the last two" : ""
  return `${counted(tried.length, "attempt", "attempts")}${told}: ${last.join("; ")}`
}

/** How a case was closed: "Closed by itself 27 Nov 2026: no reason is left". */
export function closingWords(closed: { on: string; reason: string }): string {
  if (closed.reason === "no reason left") return `Closed by itself ${day(closed.on)}: no reason is left`
  return `Closed ${day(closed.on)}: ${closed.reason}`
}

type OrderKey = (typeof orderKeys)[number]

/** What decides at each key of the order, more pressing first. */
export const orderKeyWords: Readonly<Record<OrderKey, string>> = {
  tier: "how soon: urgent, soon, routine, ahead",
  "order of reasons": "the order of reasons that the clinic set, where it set one",
  "risk cell": "risk by eGFR and albuminuria: very high, high, moderately increased, low, not known",
  "failure risk": "2-year risk of kidney failure, higher first, not known last",
  reasons: "number of reasons, more first",
  "age of reasons": "the oldest fact behind a reason, none at all first",
  "next visit": "the next visit booked, sooner first, none last",
  number: "a number that stays, so that the order never changes by chance",
}

/** Why somebody stands below the one before: "Below the one before by risk: high, there very high." */
export function belowWords(
  key: OrderKey,
  { above, below }: { above: OrderFacts; below: OrderFacts },
): string {
  if (key === "number")
    return "Equal to the one before in everything that decides; a number that stays parts them."
  const [here, there] = [valueOf(key, below), valueOf(key, above)]
  return `Below the one before by ${keyNames[key]}: here ${here}, there ${there}.`
}

/** Why somebody stands here: everything that decides, in its order. */
export function hereWords(facts: OrderFacts): string {
  const keys = ["tier", "risk cell", "failure risk", "reasons", "age of reasons", "next visit"] as const
  return `${sentenceCase(keys.map((key) => `${keyNames[key]}: ${valueOf(key, facts)}`).join("; "))}.`
}

const keyNames = {
  tier: "how soon",
  "order of reasons": "order of reasons",
  "risk cell": "risk",
  "failure risk": "2-year failure risk",
  reasons: "number of reasons",
  "age of reasons": "oldest fact",
  "next visit": "next visit",
} as const

function valueOf(key: keyof typeof keyNames, facts: OrderFacts): string {
  switch (key) {
    case "tier":
      return facts.tier ?? "not known"
    case "order of reasons":
      return nameOf(facts.firstReason)
    case "risk cell":
      return facts.riskCell ?? "not known"
    case "failure risk":
      return facts.failureRisk === null ? "not known" : percentTenth(facts.failureRisk)
    case "reasons":
      return String(facts.reasons)
    case "age of reasons":
      return facts.oldestOn === null ? "none on record" : day(facts.oldestOn)
    case "next visit":
      return facts.nextVisitOn === null ? "none booked" : day(facts.nextVisitOn)
  }
}

function nameOf(id: string | null): string {
  const known = reasons.find((one) => one.id === id)
  return known ? withoutCapital(known.name) : "not set"
}

function withoutCapital(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1)
}
