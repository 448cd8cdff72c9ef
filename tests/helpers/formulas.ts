import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import { readdirSync, readFileSync } from "node:fs"
import { fileURLToPath } from "node:url"

const folder = fileURLToPath(new URL("../../lib/clinical/formulas/", import.meta.url))

/** One published formula: its file, its SQL text, the macro's name and the names of its parameters. */
export type Formula = { file: string; sql: string; name: string; parameters: string[] }

/** Every formula file, in the order of their names. */
export function readFormulas(): Formula[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith(".sql"))
    .sort()
    .map((file) => {
      const sql = readFileSync(folder + file, "utf8")
      const declared = /create or replace macro (\w+)\s*\(([^)]*)\)/.exec(sql)
      const parameters = (declared?.[2] ?? "").split(",").map((parameter) => parameter.trim())
      return { file, sql, name: declared?.[1] ?? "", parameters }
    })
}

/** An empty database in memory with every formula defined. */
export async function openFormulas(): Promise<DuckDBConnection> {
  const instance = await DuckDBInstance.create(":memory:")
  const connection = await instance.connect()
  for (const formula of readFormulas()) await connection.run(formula.sql)
  return connection
}

/** What an expression gives: a number, a word, a day as text, true or false, or null. */
export type Value = number | string | boolean | null

/** The one value of a SQL expression; whole numbers of any width and decimals come as numbers. */
export async function evaluate(connection: DuckDBConnection, expression: string): Promise<Value> {
  const reader = await connection.runAndReadAll(
    `select cast(v as varchar), typeof(v) from (select ${expression} as v)`,
  )
  const [text, type] = reader.getRowsJson()[0] ?? []
  if (typeof text !== "string") return null
  if (type === "BOOLEAN") return text === "true"
  return type === "VARCHAR" || type === "DATE" ? text : Number(text)
}
