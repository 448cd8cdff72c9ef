import { expect, test } from "vitest"
import { standingKind } from "../../../lib/speech/standing-kind"

test("which of met and not met wants attention depends on the measure", () => {
  expect(standingKind({ direction: "up" }, "not met")).toBe("wanting")
  expect(standingKind({ direction: "up" }, "met")).toBe("reached")
  expect(standingKind({ direction: "down" }, "met")).toBe("wanting")
  expect(standingKind({ direction: "down" }, "not met")).toBe("reached")
})

test("a standing that is a reason is its own kind", () => {
  expect(standingKind({ direction: "down" }, "exception")).toBe("exception")
  expect(standingKind({ direction: "up" }, "unknown")).toBe("unknown")
})
