import { expect, test } from "vitest"
import { defaultSettings } from "../../../lib/domain/settings"
import { settingsThen } from "../../../lib/domain/settings-then"

const now = { ...defaultSettings, "bp.systolicTarget": 120, "reports.smallestGroup": 8 }
const then = { ...defaultSettings, "bp.systolicTarget": 140, "reports.smallestGroup": 5 }
const snapshot = { settings: now, closed: [{ asOf: "2026-01-31", settings: then }] }

test("a closed month is told by the target it was closed with, any other by that of now", () => {
  expect(settingsThen(snapshot, "2026-01-31")["bp.systolicTarget"]).toBe(140)
  expect(settingsThen(snapshot, "2026-02-28")["bp.systolicTarget"]).toBe(120)
})

test("how few people a group may show is what the clinic holds today", () => {
  expect(settingsThen(snapshot, "2026-01-31")["reports.smallestGroup"]).toBe(8)
})
