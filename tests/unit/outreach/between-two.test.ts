import { expect, test } from "vitest"
import { defaultSettings } from "../../../lib/domain/settings"
import { reasonIds } from "../../../lib/domain/reason-ids"
import { differingKey, firstInOrder, type OrderFacts } from "../../../lib/outreach/between-two"

const facts: OrderFacts = {
  ...{ tier: "soon", firstReason: null, riskCell: "high", failureRisk: 0.1, reasons: 2 },
  ...{ oldestOn: "2026-01-05", nextVisitOn: null },
}

test.each([
  [{ tier: "routine", riskCell: "low" }, "tier"],
  [{ firstReason: "potassium-high", riskCell: "low" }, "order of reasons"],
  [{ riskCell: "low", failureRisk: 0.2 }, "risk cell"],
  [{ failureRisk: null, reasons: 1 }, "failure risk"],
  [{ reasons: 1, oldestOn: null }, "reasons"],
  [{ oldestOn: null, nextVisitOn: "2026-12-01" }, "age of reasons"],
  [{ nextVisitOn: "2026-12-01" }, "next visit"],
  [{}, "number"],
] as const)("two people are told apart by the first key in which they differ: %o", (other, key) => {
  expect(differingKey(facts, { ...facts, ...other })).toBe(key)
  expect(differingKey({ ...facts, ...other }, facts)).toBe(key)
})

test("the first reason is one of the tier, in the order the clinic set, and none where it set none", () => {
  const held = [{ reason: "above-target" }, { reason: "pressure-high" }, { reason: "potassium-high" }]
  const order = reasonIds.toReversed().join(" ")

  expect(firstInOrder(held, { tier: "soon", settings: defaultSettings })).toBeNull()
  expect(
    firstInOrder(held, {
      tier: "soon",
      settings: { ...defaultSettings, "outreach.reasonOrder": order },
    }),
  ).toBe("pressure-high")
})
