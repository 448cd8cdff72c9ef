import type { DuckDBConnection } from "@duckdb/node-api"
import { existsSync, readFileSync } from "node:fs"
import { beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { evaluate, openFormulas, readFormulas, type Formula, type Value } from "../../helpers/formulas"

const Scalar = z.union([z.number(), z.string(), z.boolean(), z.null()])

const Vectors = z.strictObject({
  formula: z.string(),
  how: z.string().min(1),
  vectors: z.array(
    z.strictObject({
      source: z.string().min(1),
      inputs: z.record(z.string(), Scalar),
      expected: Scalar,
      tolerance: z.number().nonnegative(),
    }),
  ),
})

type Vector = z.infer<typeof Vectors>["vectors"][number]

const formulas = readFormulas()
let connection: DuckDBConnection

beforeAll(async () => {
  connection = await openFormulas()
})

function vectorsOf(formula: Formula): URL {
  return new URL(`../../fixtures/vectors/${formula.file.replace(".sql", ".json")}`, import.meta.url)
}

const days = ["born", "on_day"]

/** A fixture value as SQL; numbers with a fraction once as decimals and once as doubles, as views pass them. */
function literal(parameter: string, value: Value, number: "decimal" | "double"): string {
  if (value === null) return days.includes(parameter) ? "cast(null as date)" : "null"
  if (typeof value === "string") return days.includes(parameter) ? `date '${value}'` : `'${value}'`
  if (typeof value === "boolean" || number === "decimal") return String(value)
  return Number.isInteger(value) ? String(value) : `cast(${value} as double)`
}

async function misses(
  formula: Formula,
  vector: Vector,
  number: "decimal" | "double",
): Promise<string | null> {
  const call = `${formula.name}(${formula.parameters.map((name) => literal(name, vector.inputs[name] ?? null, number)).join(", ")})`
  const got = await evaluate(connection, call)
  const matches =
    typeof got === "number" && typeof vector.expected === "number"
      ? Math.abs(got - vector.expected) <= vector.tolerance
      : got === vector.expected
  return matches ? null : `${call}: ${got}, not ${vector.expected} (${vector.source})`
}

describe("published and independent check values", () => {
  it.each(formulas)("hold for every row of $name", async (formula) => {
    const file = Vectors.parse(JSON.parse(readFileSync(vectorsOf(formula), "utf8")))
    const ran: Vector[] = []
    const failures: string[] = []

    for (const vector of file.vectors) {
      for (const number of ["decimal", "double"] as const) {
        const failure = await misses(formula, vector, number)
        if (failure !== null) failures.push(failure)
      }
      ran.push(vector)
    }

    expect(file.formula).toBe(formula.name)
    expect(file.vectors.map((vector) => Object.keys(vector.inputs))).toEqual(
      file.vectors.map(() => formula.parameters),
    )
    expect(failures).toEqual([])
    expect(ran).toEqual(file.vectors)
    expect(ran.length).toBeGreaterThanOrEqual(8)
  })

  it("exist for every formula", () => {
    const missing = formulas
      .filter((formula) => !existsSync(vectorsOf(formula)))
      .map((formula) => formula.name)

    expect(missing).toEqual([])
  })

  it("include the absence rule of every formula", () => {
    const without = formulas.filter((formula) => {
      const file = Vectors.parse(JSON.parse(readFileSync(vectorsOf(formula), "utf8")))
      return !file.vectors.some((vector) => vector.expected === null)
    })

    expect(without.map((formula) => formula.name)).toEqual([])
  })
})
