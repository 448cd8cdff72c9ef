import { expect, test } from "vitest"
import { isWhole, scopeOf, wholeClinic } from "../../../lib/access/scope"
import { roles } from "../../../lib/access/roles"

const calm = { ownPanel: "none", isEmergency: false } as const
const limited = { ownPanel: "nephrologist", isEmergency: false } as const
const holder = { roles: ["nephrologist"], staffId: "S-01", sites: [] }

test("by default nothing limits anybody but the sites of their account", () => {
  for (const role of roles) expect(isWhole(scopeOf({ ...holder, roles: [role] }, calm))).toBe(true)
  expect(scopeOf({ ...holder, sites: ["North"] }, calm)).toEqual({ sites: ["North"], panelOf: null })
})

test("a nephrologist limited to the own panel sees that of their link to the staff list", () => {
  expect(scopeOf(holder, limited)).toEqual({ sites: null, panelOf: "S-01" })
})

test("an own panel without a link is nobody's, and not everybody's", () => {
  const scope = scopeOf({ ...holder, staffId: null }, limited)

  expect(scope.panelOf).toBe("")
  expect(isWhole(scope)).toBe(false)
})

test("another role that shows people lifts the limit of the own panel; one that shows none does not", () => {
  expect(scopeOf({ ...holder, roles: ["nephrologist", "clinic-lead"] }, limited).panelOf).toBeNull()
  expect(scopeOf({ ...holder, roles: ["nephrologist", "administrator"] }, limited).panelOf).toBe("S-01")
  expect(scopeOf({ ...holder, roles: ["nurse"] }, limited).panelOf).toBeNull()
  expect(scopeOf({ ...holder, roles: ["administrator"] }, limited).panelOf).toBeNull()
})

test("an emergency lifts both limits", () => {
  expect(scopeOf({ ...holder, sites: ["North"] }, { ...limited, isEmergency: true })).toEqual(wholeClinic)
})
