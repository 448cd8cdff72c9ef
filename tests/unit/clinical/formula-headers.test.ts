import type { DuckDBConnection } from "@duckdb/node-api"
import { beforeAll, describe, expect, it } from "vitest"
import { evaluate, openFormulas, readFormulas } from "../../helpers/formulas"

const formulas = readFormulas()
const parts = ["shape", "absent", "throws", "source", "example"]
let connection: DuckDBConnection

beforeAll(async () => {
  connection = await openFormulas()
})

/** The comment above the macro, by part: the sentence first, each part with its continuation lines. */
function headerOf(sql: string): { names: string[]; texts: Record<string, string> } {
  const lines = sql.slice(0, sql.indexOf("create or replace macro")).trimEnd().split("\n")
  const names = ["meaning"]
  const texts: Record<string, string> = {}
  for (const line of lines) {
    const started = /^-- (\w+): (.*)$/.exec(line)
    if (started?.[1] !== undefined && parts.includes(started[1])) names.push(started[1])
    const name = names.at(-1) ?? "meaning"
    texts[name] =
      `${texts[name] ?? ""} ${started?.[2] !== undefined && parts.includes(started[1] ?? "") ? started[2] : line.slice(2).trim()}`.trim()
  }
  return { names, texts }
}

describe("every formula file", () => {
  it("holds one macro named as the file", () => {
    expect(formulas.map((formula) => formula.name.replaceAll("_", "-") + ".sql")).toEqual(
      formulas.map((formula) => formula.file),
    )
    expect(formulas.filter((formula) => formula.sql.split("create or replace macro").length !== 2)).toEqual(
      [],
    )
  })

  it.each(formulas)("says what $name is, with all parts in order", ({ sql, parameters }) => {
    const { names, texts } = headerOf(sql)

    expect(names).toEqual(["meaning", ...parts])
    expect(texts.meaning).toMatch(/^[A-Z].*\.$/)
    expect(texts.shape).toContain("->")
    expect(texts.absent).toMatch(/^null /)
    for (const parameter of parameters)
      expect(sql.split("create or replace")[0]).toContain(parameter.split("_")[0])
  })

  it.each(formulas)("names the source of $name with its year", ({ sql }) => {
    expect(headerOf(sql).texts.source).toMatch(
      /\b(19|20)\d\d\b|the project's definitions|common practice, no source/,
    )
  })

  it.each(formulas)("says of the source of $name what was read and what is from memory", ({ sql }) => {
    expect(headerOf(sql).texts.source).toMatch(
      /\[.*(read|from memory|by arithmetic).*\]$|^(the project's definitions|by definition)/,
    )
  })

  it.each(formulas)("works the example of $name to the answer it prints", async ({ sql, name }) => {
    const [, call = "", answer = ""] = /^(.+\)) = (.+)$/.exec(headerOf(sql).texts.example ?? "") ?? []

    const got = await evaluate(connection, call)

    expect(call).toMatch(new RegExp(`^${name}\\(`))
    if (typeof got === "number") {
      const digits = answer.split(".")[1]?.length ?? 0
      expect(Math.abs(got - Number(answer))).toBeLessThanOrEqual(0.5001 * 10 ** -digits)
    } else {
      expect(String(got)).toBe(answer)
    }
  })
})
