import { afterEach, describe, expect, test } from "vitest"
import { parseImportView } from "../../../app/(clinic)/imports/search-params"
import { parseMeasureView } from "../../../app/(clinic)/measures/search-params"
import { parsePatientsAddress } from "../../../app/(clinic)/patients/search-params"
import { parseSettingsView } from "../../../app/(clinic)/settings/search-params"
import { placeHref } from "../../../app/_http/prove"
import { isSettingKey } from "../../../lib/domain/setting-proposal"
import { may } from "../../../lib/access/permissions"
import { isRole } from "../../../lib/access/roles"

const polluting = [
  "__proto__",
  "constructor",
  "prototype",
  "__proto__[isWhole]",
  "constructor.prototype.isWhole",
]
const address = new URLSearchParams(polluting.map((name) => [name, "true"]))
const search: unknown = JSON.parse(
  '{"__proto__":{"isWhole":"true"},"constructor":{"prototype":{"isWhole":"true"}}}',
)

afterEach(() => {
  expect(Object.keys(Object.prototype)).toEqual([])
  expect("isWhole" in {}).toBe(false)
})

describe("names of every object's own parts are no names of the program:", () => {
  test("in an address", () => {
    const raw = { ...Object.fromEntries(address), ...Object(search) }
    expect(parseSettingsView(Object.fromEntries(address)).texts).toEqual({})
    expect(Object.keys(parseMeasureView(raw))).not.toContain("isWhole")
    expect(Object.keys(parseImportView(raw)).sort()).toEqual(["after", "file"])
    expect(Object.keys(parsePatientsAddress(address))).not.toContain("__proto__")
  })

  test.each([...polluting, "toString", "hasOwnProperty"])(
    "%s is no setting, role, grant or place",
    (word) => {
      expect(isSettingKey(word)).toBe(false)
      expect(isRole(word)).toBe(false)
      expect(may({ roles: [word], grants: [word] }, "people.see")).toBe(false)
      expect(placeHref(word)).toBe("/account")
    },
  )
})
