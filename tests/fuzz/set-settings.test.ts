import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { parseSettingsView, settingsHref } from "../../app/(clinic)/settings/search-params"
import { isSettingKey, proposeSettings } from "../../lib/domain/setting-proposal"
import { settingKeys, settingText, settingWords } from "../../lib/domain/setting-values"
import { defaultSettings, Settings } from "../../lib/domain/settings"
import { readEnvironment } from "../../lib/env"
import { readReach } from "../../lib/reach"
import { answerOrRefusal, expectPlainWords, forInputs } from "../helpers/fuzz"
import { hostileText, mostly, wellFormed } from "../helpers/hostile"

describe.each(settingKeys)("the setting %s", (key) => {
  test("is set to any text that is allowed and refuses every other", () =>
    forInputs(mostly("120", "1,000", "0.5", "", settingText(defaultSettings[key])), (text) => {
      const { settings, changed, problems } = proposeSettings(defaultSettings, { [key]: text })
      expect(Settings.parse(settings)).toEqual(settings)
      for (const problem of problems) expectPlainWords(problem.message, [text])
      if (problems.length > 0) expect(changed).toEqual([])
      expect(settingWords(key, settings[key])).not.toBe("")
    }))
})

test("any address of the settings proposes what it proposes again once written", () =>
  forInputs(
    fc.dictionary(fc.oneof(fc.constantFrom<string>(...settingKeys), hostileText), mostly("130", "")),
    (raw) => {
      const { texts } = parseSettingsView(raw)
      expect(Object.keys(texts).every(isSettingKey)).toBe(true)
      const again = new URL(settingsHref(texts), "http://site").searchParams
      const asSent = Object.fromEntries(Object.entries(texts).map(([key, text]) => [key, wellFormed(text)]))
      expect(parseSettingsView(Object.fromEntries(again)).texts).toEqual(asSent)
    },
  ))

test("any environment is read or refused by the name of its variable", () => {
  const names = [
    "PORT",
    "FILTRATE_DEMO",
    "FILTRATE_ORIGIN",
    "FILTRATE_TIME_ZONE",
    "FILTRATE_HOST",
    "FILTRATE_TRUST_PROXY",
  ]
  const limits = ["FILTRATE_UPLOAD_LIMIT", "FILTRATE_EXPORTS_PER_HOUR"]
  const value = mostly(
    "3000",
    "on",
    "https://clinic.test",
    "Europe/Oslo",
    "10.0.0.0/8",
    "0.0.0.0",
    "127.0.0.1",
  )
  return forInputs(fc.dictionary(fc.constantFrom(...names, ...limits), value), async (variables) => {
    const environment = { NODE_ENV: "test" as const, ...variables }
    const expected = { codes: ["bad-request"] as const, typed: Object.values(variables) }
    const read = await answerOrRefusal(() => readEnvironment(environment), expected)
    if (read !== null) expect(read.port).toBeGreaterThan(0)
    const reach = await answerOrRefusal(() => readReach(environment), expected)
    if (
      reach !== null &&
      reach.host !== "127.0.0.1" &&
      reach.host !== "localhost" &&
      !reach.host.startsWith("127.") &&
      reach.host !== "::1"
    )
      expect(reach.origin).toMatch(/^https:/)
  })
})
