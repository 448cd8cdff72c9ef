import { expect, test } from "vitest"
import type { OrderFacts } from "../../../lib/outreach/between-two"
import {
  attemptsWords,
  belowWords,
  closingWords,
  contactWords,
  hereWords,
} from "../../../lib/speech/outreach-row-words"

const plain = (words: string) => words.replaceAll("\u00a0", " ")
const facts: OrderFacts = {
  ...{ tier: "soon", firstReason: null, riskCell: "very high", failureRisk: 0.123, reasons: 3 },
  ...{ oldestOn: null, nextVisitOn: "2026-12-20" },
}

test("the way to reach somebody names another language than English, and that an interpreter is needed", () => {
  expect(contactWords({ preferred_contact: "phone", language: "nb", interpreter_needed: true })).toBe(
    "Phone, Norwegian Bokmål, interpreter needed",
  )
  expect(contactWords({ preferred_contact: "email", language: "en-US", interpreter_needed: false })).toBe(
    "E-mail",
  )
  expect(contactWords({ preferred_contact: null, language: null, interpreter_needed: false })).toBe(
    "No preferred way on record",
  )
})

test("attempts are counted, and the last two told with what came of them", () => {
  const phone = { onDay: "2026-10-28", channel: "phone", outcome: "no answer" }
  const text = { onDay: "2026-10-30", channel: "text", outcome: "message left" }

  expect(attemptsWords([])).toBe("Not tried yet")
  expect(plain(attemptsWords([phone, text]))).toBe(
    "2 attempts: phone, no answer 28 Oct 2026; text, message left 30 Oct 2026",
  )
  expect(plain(attemptsWords([phone, phone, text]))).toContain("3 attempts, the last two: phone")
})

test("a place is told by all that decides it, and by what put it below the one before", () => {
  const other = { ...facts, failureRisk: null }

  expect(plain(hereWords(facts))).toBe(
    "How soon: soon; risk: very high; 2-year failure risk: 12.3%; number of reasons: 3; oldest fact: none on record; next visit: 20 Dec 2026.",
  )
  expect(belowWords("failure risk", { above: facts, below: other })).toBe(
    "Below the one before by 2-year failure risk: here not known, there 12.3%.",
  )
  expect(belowWords("number", { above: facts, below: facts })).toContain("a number that stays")
})

test("a case that closed itself is told from one that a person closed", () => {
  expect(plain(closingWords({ on: "2026-11-27", reason: "no reason left" }))).toBe(
    "Closed by itself 27 Nov 2026: no reason is left",
  )
  expect(plain(closingWords({ on: "2026-11-27", reason: "declined" }))).toBe("Closed 27 Nov 2026: declined")
})
