import { expect, test } from "vitest"
import { capabilities, may, type Capability } from "../../../lib/access/permissions"
import { roles, type Role } from "../../../lib/access/roles"

const held = (role: Role): Capability[] =>
  capabilities.filter((what) => may({ roles: [role], grants: [] }, what))

// The roles as the clinic wants them: an administrator opens no person, an auditor the audit log alone.
test("an administrator opens no person, no list and no row of an extract", () => {
  expect(held("administrator")).toEqual([
    ...[
      "account.own",
      "figures.see",
      "reports.export",
      "settings.see",
      "imports.see",
      "imports.manage",
      "users.manage",
    ],
  ])
})

test("an auditor opens the audit log and what is reviewed there", () => {
  expect(held("auditor")).toEqual(["account.own", "audit.see", "emergency.review"])
})

test("a dietitian and a nurse take no list away", () => {
  for (const role of ["dietitian", "nurse"] as const) expect(held(role)).not.toContain("people.export")
})

test("everyone has their own account, and every capability has someone", () => {
  for (const role of roles) expect(held(role)).toContain("account.own")
  for (const what of capabilities) expect(roles.some((role) => held(role).includes(what))).toBe(true)
})

test("several roles add up", () => {
  const both = { roles: ["auditor", "administrator"], grants: [] }

  expect(may(both, "audit.see") && may(both, "users.manage")).toBe(true)
})

test("a grant gives the one thing that can be granted, and nothing else", () => {
  expect(may({ roles: ["administrator"], grants: ["imports.rows"] }, "imports.rows")).toBe(true)
  expect(may({ roles: ["administrator"], grants: ["people.see"] }, "people.see")).toBe(false)
})

test("words that are no role give nothing", () => {
  for (const role of ["", "Clinic-Lead", "admin", "__proto__", "constructor"])
    for (const what of capabilities) expect(may({ roles: [role], grants: [] }, what)).toBe(false)
})
