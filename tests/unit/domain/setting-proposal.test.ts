import { expect, test } from "vitest"
import { isSettingKey, proposeSettings } from "../../../lib/domain/setting-proposal"
import { settingName, settingWords } from "../../../lib/domain/setting-values"
import { defaultSettings } from "../../../lib/domain/settings"

test("values given as text stand in place of those of now", () => {
  const proposal = proposeSettings(defaultSettings, { "bp.systolicTarget": "120", "drugs.several": "4" })

  expect(proposal.settings).toEqual({ ...defaultSettings, "bp.systolicTarget": 120, "drugs.several": 4 })
  expect(proposal.changed).toEqual(["bp.systolicTarget", "drugs.several"])
})

test("a value that stands there already changes nothing", () => {
  const proposal = proposeSettings(defaultSettings, { "bp.systolicTarget": "130" })

  expect(proposal.changed).toEqual([])
  expect(proposal.problems).toEqual([])
})

test("an empty pair of one's own is no pair", () => {
  const own = { ...defaultSettings, "bp.homeSystolicTarget": 125, "bp.homeDiastolicTarget": 78 }

  const proposal = proposeSettings(own, { "bp.homeSystolicTarget": "", "bp.homeDiastolicTarget": " " })

  expect(proposal.settings["bp.homeSystolicTarget"]).toBeNull()
  expect(proposal.settings["bp.homeDiastolicTarget"]).toBeNull()
})

test("a thousands separator is read as such", () => {
  expect(proposeSettings(defaultSettings, { "diet.limitMg": "2,300" }).settings["diet.limitMg"]).toBe(2300)
})

test.each([
  ["outreach.reasonsOff", "above-target no-such-reason", "Must be names of reasons with blanks between."],
  ["outreach.reasonsOff", "above-target above-target", "Names a reason twice."],
  [
    "outreach.reasonsOff",
    "diet-record-due potassium-very-high",
    "Urgent reasons cannot be switched off: they name what cannot wait.",
  ],
  ["outreach.reasonOrder", "above-target", "Must name every reason once."],
  ["outreach.urgentText", " ", "A text is needed."],
  ["outreach.urgentText", "a".repeat(501), "Takes at most 500 letters."],
  ["outreach.channels", "4", "So many channels need at least as many attempts."],
  ["bp.systolicTarget", "40", "Must be 90 to 200 mmHg; 40 is outside."],
  ["bp.systolicTarget", "201", "Must be 90 to 200 mmHg; 201 is outside."],
  ["bp.systolicTarget", "", "A number is needed."],
  ["bp.systolicTarget", "-130", "Must be a number."],
  ["bp.systolicTarget", "1e2", "Must be a number."],
  ["bp.windowMonths", "6.5", "Must be a whole number."],
  ["bp.windowMonths", "2,3", "Must be a number."],
  ["bp.sameDay", "highest", "Must be one of mean, lowest."],
  ["bp.diastolicTarget", "80 mmHg", "Must be a number."],
] as const)("%s = %j is refused", (key, text, message) => {
  const proposal = proposeSettings(defaultSettings, { [key]: text })

  expect(proposal.problems).toEqual([{ key, message }])
  expect(proposal.settings).toBe(defaultSettings)
})

test.each([
  [{ "bp.systolicTarget": "90", "bp.diastolicTarget": "90", "bp.lowSystolic": "80" }, "bp.diastolicTarget"],
  [{ "bp.homeSystolicTarget": "125" }, "bp.homeDiastolicTarget"],
  [{ "bp.ambulatoryDiastolicTarget": "75" }, "bp.ambulatorySystolicTarget"],
  [{ "bp.lowSystolic": "130" }, "bp.lowSystolic"],
  [{ "bp.homeMinDays": "8", "bp.homeWindowDays": "7" }, "bp.homeMinDays"],
  [{ "bp.homeMinDays": "13" }, "bp.homeMinDays"],
] as const)("%j contradicts itself", (texts, key) => {
  expect(proposeSettings(defaultSettings, texts).problems.map((problem) => problem.key)).toEqual([key])
})

test.each([
  { "bp.systolicTarget": "91", "bp.diastolicTarget": "90", "bp.lowSystolic": "90" },
  { "bp.lowSystolic": "129" },
  { "bp.homeMinDays": "7", "bp.homeWindowDays": "7" },
  { "bp.homeMinDays": "12" },
])("%j goes together", (texts) => {
  expect(proposeSettings(defaultSettings, texts).problems).toEqual([])
})

test("only the names the definitions give are settings", () => {
  expect(isSettingKey("bp.systolicTarget")).toBe(true)
  expect(isSettingKey("bp.colour")).toBe(false)
  expect(isSettingKey("toString")).toBe(false)
})

test("a value is read with its unit, or by the name of its choice", () => {
  expect(settingWords("diet.limitMg", 2300)).toBe("2,300 mg a day")
  expect(settingWords("bp.sameDay", "lowest")).toBe("The lowest systolic and the lowest diastolic")
  expect(settingWords("bp.homeSystolicTarget", null)).toBe("not set")
  expect(settingWords("import.rejectShare", 0.05)).toBe("5% of the rows of a file")
})

test("one number of several is named with its topic", () => {
  expect(settingName("bp.systolicTarget")).toBe("Target, office systolic below")
  expect(settingName("diet.limitMg")).toBe("Sodium limit")
})
