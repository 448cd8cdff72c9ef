import "server-only"
import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import { z } from "zod"
import { Settings } from "../domain/settings"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { computeDay } from "./compute"
import { currentSnapshot, openSnapshot } from "./snapshot"
import { toCell, type Param } from "./values"

/** A question to the snapshot: constant SQL with named parameters, and the shape every row must have. */
export type Question<Row> = { readonly sql: string; readonly Row: z.ZodType<Row> }

/** Asks the current snapshot. Every row is checked against the question's row shape, once, here. */
export async function ask<Row>(question: Question<Row>, params: Record<string, Param> = {}): Promise<Row[]> {
  const instance = await openSnapshot(readEnvironment().dataDir)
  const connection = await instance.connect()
  try {
    return await askOn(connection, question, params)
  } finally {
    connection.closeSync()
  }
}

/** Asks over one connection; for commands that compute a day of their own. */
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

export type SnapshotMeta = {
  builtAt: string
  today: string
  timeZone: string
  clinicName: string
  isDemo: boolean
  settings: Settings
  /** The running as-of date: where the latest month stands. */
  runningAsOf: string
  /** All as-of dates of the snapshot, earliest first. */
  asOfs: string[]
}

const Meta = z.object({
  built_at: z.string(),
  today: z.string(),
  time_zone: z.string(),
  clinic_name: z.string(),
  is_demo: z.boolean(),
  settings: z.string(),
})

const AsOf = z.object({ as_of: z.string(), is_running: z.boolean() })

export async function snapshotMeta(): Promise<SnapshotMeta> {
  const [meta] = await ask({ sql: "select * from snapshot_meta", Row: Meta })
  const asOfs = await ask({ sql: "select as_of, is_running from as_of_dates order by as_of", Row: AsOf })
  const running = asOfs.find((one) => one.is_running)
  if (!meta || !running)
    throw new AppError("no-snapshot", "The snapshot is not complete. Run `npx filtrate refresh`.")
  return {
    builtAt: meta.built_at,
    today: meta.today,
    timeZone: meta.time_zone,
    clinicName: meta.clinic_name,
    isDemo: meta.is_demo,
    settings: Settings.parse(JSON.parse(meta.settings)),
    runningAsOf: running.as_of,
    asOfs: asOfs.map((one) => one.as_of),
  }
}

/**
 * Runs `work` over a connection on which `patient_month`, the standings and the counts stand at one given day.
 * The snapshot itself stays as it is: the day's tables are temporary and hide its own.
 */
export async function onDay<T>(
  options: { dataDir: string; asOf: string; settings: Settings },
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const file = currentSnapshot(options.dataDir)
  if (!file)
    throw new AppError(
      "no-snapshot",
      "There is no snapshot yet. Run `npx filtrate refresh`, or import an extract.",
    )
  const instance = await DuckDBInstance.create(":memory:", { threads: "2" })
  const connection = await instance.connect()
  try {
    await connection.run(`attach '${file.replaceAll("'", "''")}' as snapshot (read_only)`)
    await connection.run("use snapshot")
    await computeDay(connection, options)
    return await work(connection)
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
}
