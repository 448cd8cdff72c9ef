import { existsSync, readFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"
import { describe, expect, test } from "vitest"
import { capabilities, permissions } from "../../../lib/access/permissions"
import { roles, roleWords, type Role } from "../../../lib/access/roles"
import { sessionLimits } from "../../../lib/access/session-limits"
import { asvsRequirements } from "../../fixtures/asvs-requirements"

const root = fileURLToPath(new URL("../../..", import.meta.url))
const doc = readFileSync(path.join(root, "docs/security.md"), "utf8")

/** The cells of every row under a heading that begins with these words, up to the next of the same depth. */
function rowsUnder(heading: string): string[][] {
  const from = doc.indexOf(`\n## ${heading}`)
  expect(from).toBeGreaterThan(0)
  const end = doc.indexOf("\n## ", from + 4)
  return doc
    .slice(from, end < 0 ? undefined : end)
    .split("\n")
    .filter((line) => line.startsWith("|") && !/^\|[\s|-]*$/.test(line))
    .map((line) =>
      line
        .split("|")
        .slice(1, -1)
        .map((cell) => cell.trim()),
    )
}

test("the table of who may do what is the program's own", () => {
  const mayDo = (role: Role, having: readonly Role[]) => (having.includes(role) ? "yes" : "")
  const expected = [
    ["", ...roles.map((role) => roleWords[role])],
    ...capabilities.map((what) => {
      const { words, roles: having } = permissions[what]
      return [words, ...roles.map((role) => mayDo(role, having))]
    }),
  ]

  expect(rowsUnder("Who may do what")).toEqual(expected)
})

test("every test that is named exists", () => {
  const named = [...doc.matchAll(/`(tests\/[^`]+)`/g)].map((match) => match[1] ?? "")

  expect(named.length).toBeGreaterThan(200)
  expect([...new Set(named)].filter((file) => !existsSync(path.join(root, file)))).toEqual([])
})

describe("the table of requirements", () => {
  const rows = rowsUnder("OWASP ASVS 5.0").filter(([first]) => first !== "requirement")
  const numbersOf = (row: string[]) => (row[0] ?? "").split(", ")

  test("has every one of level 1 and 2 once", () => {
    expect(rows.flatMap(numbersOf).sort()).toEqual([...asvsRequirements].sort())
    expect(asvsRequirements).toHaveLength(245)
  })

  test("says how each is met and names what shows it, or gives a reason", () => {
    const bare = rows.filter(
      ([, , here = "", shown = ""]) =>
        here === "" || (!shown.includes("tests/") && !/^Does not apply: .{5,}/.test(here)),
    )

    expect(bare.map(numbersOf)).toEqual([])
  })
})

test("every technical safeguard of the rule has a row", () => {
  const named = rowsUnder("45 CFR 164.312")
    .map(([first]) => first ?? "")
    .join(" ")

  for (const item of [
    "(a)(1)",
    "(a)(2)(i)",
    "(a)(2)(ii)",
    "(a)(2)(iii)",
    "(a)(2)(iv)",
    "(b)",
    "(c)(1)",
    "(c)(2)",
    "(d)",
  ])
    expect(named).toContain(item)
  for (const item of ["(e)(1)", "(e)(2)(i)", "(e)(2)(ii)"]) expect(named).toContain(item)
})

test("the limits of sessions are those of the program", () => {
  const minutes = (ms: number) => ms / 60_000

  expect(doc).toContain(`after ${minutes(sessionLimits.idleMs)} minutes without an act of the person`)
  expect(doc).toContain(`after ${minutes(sessionLimits.absoluteMs) / 60} hours in any case`)
  expect(sessionLimits.atOnce).toBe(3)
  expect(doc).toContain("A person may have three")
})
