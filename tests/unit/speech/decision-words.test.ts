import { describe, expect, test } from "vitest"
import { decidedWords, planWords } from "../../../lib/speech/decision-words"

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
