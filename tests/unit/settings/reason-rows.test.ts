import { expect, test } from "vitest"
import { reasonRows, reasonTexts } from "../../../app/(clinic)/settings/outreach/reason-rows"
import { reasonIds } from "../../../lib/domain/reason-ids"
import { proposeSettings } from "../../../lib/domain/setting-proposal"
import { defaultSettings } from "../../../lib/domain/settings"

test("everything on in the order of the program is nothing set by the clinic", () => {
  const texts = reasonTexts({ isOn: () => true, placeOf: (id) => reasonIds.indexOf(id) })

  expect(texts).toEqual({ "outreach.reasonsOff": "", "outreach.reasonOrder": "" })
})

test("what is saved is what is shown again; an urgent reason left blank stays on", () => {
  const texts = reasonTexts({
    isOn: (id) => id === "above-target",
    placeOf: (id) => -reasonIds.indexOf(id),
  })
  const { settings, problems } = proposeSettings(defaultSettings, texts)
  const [urgent, soon] = reasonRows(settings)

  expect(problems).toEqual([])
  expect(urgent?.rows.map(({ id, isOn }) => [id, isOn])).toEqual([
    ["drug-stopped-abruptly", true],
    ["potassium-very-high", true],
    ["pressure-very-high", true],
  ])
  expect(soon?.rows.map(({ id, isOn, place }) => [id, isOn, place])).toEqual([
    ["tests-after-start-due", false, 1],
    ["pressure-low-on-drugs", false, 2],
    ["pressure-high", false, 3],
    ["potassium-high", false, 4],
  ])
})

test("who shares a place keeps the order of the program", () => {
  expect(reasonTexts({ isOn: () => true, placeOf: () => 1 })["outreach.reasonOrder"]).toBe("")
})
