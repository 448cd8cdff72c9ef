import { describe, expect, test } from "vitest"
import { z } from "zod"
import { holdsOn, holdsUntil } from "../../../lib/domain/clinician-decisions"
import { decidedByHand, decisionDay, decisionFacts } from "../../fixtures/decision-people"

const day = z
  .string()
  .nullish()
  .transform((one) => one ?? null)
const Made = z.object({
  patient_id: z.string(),
  topic: z.string(),
  made_on: z.string(),
  ends_on: day,
  undone_on: day,
})

describe("a decision", () => {
  test("holds on a screen for the people for whom the figures have it in force", () => {
    const about = { kind: "patient declined" as const }
    const holding = z
      .array(Made)
      .parse(decisionFacts["decisions"])
      .filter((one) => one.topic === "diet")
      .filter((one) =>
        holdsOn(
          { ...about, madeOn: one.made_on, endsOn: one.ends_on, undoneOn: one.undone_on },
          { months: 12, on: decisionDay },
        ),
      )

    expect(holding.map((one) => one.patient_id).toSorted()).toEqual(decidedByHand[0]?.ids)
  })

  test("without an end holds for the months of the setting, to the last day of a short month", () => {
    const made = { madeOn: "2025-11-30", endsOn: null }

    expect(holdsUntil({ ...made, kind: "not tolerated" }, 3)).toBe("2026-02-28")
    expect(holdsUntil({ ...made, endsOn: "2026-01-05", kind: "deferred" }, 3)).toBe("2026-01-05")
  })

  test.each(["planned", "wrong data"] as const)("of the kind %s holds until it is taken back", (kind) => {
    const made = { kind, madeOn: "2020-01-01", endsOn: null }

    expect(holdsOn({ ...made, undoneOn: null }, { months: 12, on: decisionDay })).toBe(true)
    expect(holdsOn({ ...made, undoneOn: decisionDay }, { months: 12, on: decisionDay })).toBe(false)
  })
})
