import { describe, expect, test } from "vitest"
import { countsFromWords, decidedWords, planWords, recordedWords } from "../../../lib/speech/decision-words"

const open = {
  ...{ due_on: "2026-10-20", started_on: null, state: "waiting" as const },
  ...{ potassium_on: null, creatinine_on: null, tests: null },
}
const started = { ...open, state: "started" as const, started_on: "2026-09-03" }

describe("what became of a plan", () => {
  test.each([
    ["To be started by 20 Oct 2026", open],
    ["Not started by 20 Oct 2026", { ...open, state: "not started in time" as const }],
    ["Started 3 Sep 2026", started],
    ["Started 21 Oct 2026, later than 20 Oct 2026", { ...started, started_on: "2026-10-21" }],
    [
      "Started 3 Sep 2026; potassium and creatinine to be tested within 28 days",
      { ...started, tests: "waiting" as const },
    ],
    [
      "Started 3 Sep 2026; potassium 10 Sep 2026, no creatinine in the 28 days after it",
      { ...started, potassium_on: "2026-09-10", tests: "missing" as const },
    ],
    [
      "Started 3 Sep 2026; potassium 10 Sep 2026 and creatinine 11 Sep 2026",
      { ...started, potassium_on: "2026-09-10", creatinine_on: "2026-09-11", tests: "done" as const },
    ],
  ])("is said: %s", (words, plan) => {
    expect(planWords(plan).replaceAll("\u00a0", " ")).toBe(words)
  })
})

test("a decision is said with its reason, and without one where it is another", () => {
  expect(decidedWords({ kind: "not tolerated", topic: "pressure", reason: "cough" })).toBe(
    "Not tolerated: cough",
  )
  expect(decidedWords({ kind: "planned", topic: "ras_blocker", reason: "other" })).toBe("Start planned")
})

describe("when a decision counts", () => {
  const plain = (words: string | null) => words?.replaceAll("\u00a0", " ") ?? null

  test("is with the next build where the figures stand at its day", () => {
    const days = { today: "2026-11-29", asOf: "2026-11-29" }

    expect(recordedWords(days)).toBe("Recorded. The figures follow in a moment.")
    expect(countsFromWords(days)).toBe(null)
  })

  test("is once they reach its day where they stand at an earlier one", () => {
    const days = { today: "2026-11-29", asOf: "2026-11-26" }

    expect(plain(recordedWords(days))).toBe(
      "Recorded. It counts in the figures once they reach 29 November 2026; they stand at 26 November 2026.",
    )
    expect(plain(countsFromWords(days))).toBe(
      "What is decided or taken back counts in the measures from its day on; the figures stand at 26 November 2026.",
    )
  })
})
