import type { DuckDBConnection } from "@duckdb/node-api"
import { z } from "zod"
import type { DrugOrderCase } from "../fixtures/drug-orders"

const Row = z.object({
  order_key: z.string(),
  normalised: z.string(),
  ingredients: z.array(z.string()),
  disagrees: z.boolean(),
  status: z.string(),
  orders: z.number(),
  patients: z.number(),
  is_counted: z.boolean(),
  not_counted_reason: z.string().nullable(),
  is_route_unknown: z.boolean(),
})

/** Every order with what the drug views say of it and of its text, by its place among the orders. */
export async function drugOrderRows(connection: DuckDBConnection) {
  const reader = await connection.runAndReadAll(`
    select o.order_key, t.normalised, t.ingredients, t.disagrees, t.status, t.orders, t.patients,
      o.is_counted, o.not_counted_reason, o.is_route_unknown
    from orders as o
    join drug_texts as t
      on t.text = o.drug and t.code_system is not distinct from o.code_system and t.code is not distinct from o.code`)
  return new Map(
    z
      .array(Row)
      .parse(reader.getRowObjectsJson())
      .map((row) => [Number(row.order_key), row]),
  )
}

/** What is said otherwise than the case expects, by column. */
export function drugOrderMisses(
  expected: DrugOrderCase,
  row: z.infer<typeof Row> | undefined,
): Record<string, unknown> {
  const said = new Map<string, unknown>(Object.entries(row ?? {}))
  const wrong = Object.entries({ ...expected.text, ...expected.counted }).filter(
    ([name, value]) => JSON.stringify(said.get(name)) !== JSON.stringify(value),
  )
  return Object.fromEntries(wrong.map(([name]) => [name, said.get(name)]))
}
