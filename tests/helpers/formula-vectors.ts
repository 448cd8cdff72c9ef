import type { DuckDBConnection } from "@duckdb/node-api"
import { readFileSync } from "node:fs"
import { z } from "zod"
import { evaluate, type Formula, type Value } from "./formulas"

const Scalar = z.union([z.number(), z.string(), z.boolean(), z.null()])

export const Vectors = z.strictObject({
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

export type Vectors = z.infer<typeof Vectors>

type Vector = Vectors["vectors"][number]

export function vectorsFile(formula: Formula): URL {
  return new URL(`../fixtures/vectors/${formula.file.replace(".sql", ".json")}`, import.meta.url)
}

/** The published and independent check values of a formula. */
export function readVectors(formula: Formula): Vectors {
  return Vectors.parse(JSON.parse(readFileSync(vectorsFile(formula), "utf8")))
}

/**
 * What is wrong with a formula's answer to one vector, or null. Numbers with a fraction are handed over as decimals or as
 * doubles, as views pass them.
 */
export async function missOf(
  connection: DuckDBConnection,
  question: { formula: Formula; vector: Vector; number: "decimal" | "double" },
): Promise<string | null> {
  const { formula, vector, number } = question
  const given = formula.parameters.map((name) => literal(name, vector.inputs[name] ?? null, number))
  const call = `${formula.name}(${given.join(", ")})`
  const got = await evaluate(connection, call)
  const matches =
    typeof got === "number" && typeof vector.expected === "number"
      ? Math.abs(got - vector.expected) <= vector.tolerance
      : got === vector.expected
  return matches ? null : `${call}: ${got}, not ${vector.expected} (${vector.source})`
}

const days = ["born", "on_day", "office_on", "out_of_office_on", "window_after", "fresh_after"]

function literal(parameter: string, value: Value, number: "decimal" | "double"): string {
  const isDay = days.includes(parameter)
  if (value === null) return isDay ? "cast(null as date)" : "null"
  if (typeof value === "string") return isDay ? `date '${value}'` : `'${value}'`
  if (typeof value === "boolean" || number === "decimal") return String(value)
  return Number.isInteger(value) ? String(value) : `cast(${value} as double)`
}
