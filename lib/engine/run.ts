import "server-only"
import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import { z } from "zod"
import type { Scope } from "../access/scope"
import type { Settings } from "../domain/settings"
import { computeDay } from "./compute"
import { attachWithin } from "./scope"
import { requireSnapshot } from "./snapshot"
import { toCell, type Param } from "./values"

/** A question to the snapshot: constant SQL with named parameters, and the shape every row must have. */
export type Question<Row> = { readonly sql: string; readonly Row: z.ZodType<Row> }

/** Asks over one connection. Every row is checked against the question's row shape, once, here. */
export async function askOn<Row>(
  connection: DuckDBConnection,
  question: Question<Row>,
  params: Record<string, Param> = {},
): Promise<Row[]> {
  const used = Object.fromEntries(
    Object.entries(params).filter(([name]) => new RegExp(`\\$${name}\\b`).test(question.sql)),
  )
  const reader = await connection.runAndReadAll(question.sql, used)
  return z.array(question.Row).parse(reader.convertRowObjects(toCell))
}

/** Runs `work` over a connection of its own to what the scope holds of the current snapshot; nothing stays open. */
export async function onSnapshot<T>(
  options: { dataDir: string; scope: Scope },
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const file = requireSnapshot(options.dataDir)
  const instance = await DuckDBInstance.create(":memory:", { threads: "2" })
  const connection = await instance.connect()
  try {
    await attachWithin(connection, { file, scope: options.scope })
    return await work(connection)
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
}

const isClosed = {
  sql: `select count(*) > 0 as is_closed from closed_months as c where c.as_of = cast($as_of as date)`,
  Row: z.object({ is_closed: z.boolean() }),
}

/**
 * Runs `work` over a connection on which `patient_month`, the standings and the counts stand at one given day; the end of a
 * closed month as it was known when it was closed, unless today's facts are asked for.
 * The snapshot itself stays as it is: the day's tables are temporary and hide its own.
 */
export async function onDay<T>(
  options: { dataDir: string; scope: Scope; asOf: string; settings: Settings; isOfToday?: boolean },
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const file = requireSnapshot(options.dataDir)
  const instance = await DuckDBInstance.create(":memory:", { threads: "2" })
  const connection = await instance.connect()
  try {
    await attachWithin(connection, { file, scope: options.scope })
    const [day] = await askOn(connection, isClosed, { as_of: options.asOf })
    if (options.isOfToday || !day?.is_closed) await computeDay(connection, options)
    return await work(connection)
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
}
