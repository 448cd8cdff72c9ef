import { expect, test } from "vitest"
import { screensOf } from "../../../app/(clinic)/screens"

const holder = { grants: [], staffId: null }

test.each([
  ["nephrologist", "/protection"],
  ["clinic-lead", "/protection"],
  ["dietitian", "/sodium"],
  ["nurse", "/protection"],
])("opens the first review on which a %s decides, else the first of all", (role, address) => {
  const reviews = screensOf({ ...holder, roles: [role] }).find(({ name }) => name === "Reviews")

  expect(reviews?.href).toBe(address)
  expect(reviews?.within).toContain("/protection")
  expect(reviews?.within).toContain("/sodium")
})

test("offers no reviews to somebody who may not see people", () => {
  const names = screensOf({ ...holder, roles: ["administrator"] }).map(({ name }) => name)

  expect(names).toContain("Month")
  expect(names).not.toContain("Reviews")
})
