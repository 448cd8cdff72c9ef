import { expect, test } from "vitest"
import { parseEffectView } from "../../../app/(clinic)/outreach/effect/search-params"

const today = "2026-08-31"

test.each([
  [{}, { from: "2026-02-28", to: today }],
  [{ from: "2026-05-01" }, { from: "2026-05-01", to: today }],
  [
    { from: "2026-01-01", to: "2026-03-31" },
    { from: "2026-01-01", to: "2026-03-31" },
  ],
  [
    { from: "2026-04-01", to: "2026-03-31" },
    { from: "2026-02-28", to: today },
  ],
  [
    { from: "yesterday", to: "2026-02-30" },
    { from: "2026-02-28", to: today },
  ],
])("the period of %j", (raw, period) => {
  expect(parseEffectView(raw, today)).toEqual(period)
})
