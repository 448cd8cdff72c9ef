import "server-only"
import { createWriteStream } from "node:fs"
import { rm } from "node:fs/promises"
import path from "node:path"
import { pipeline } from "node:stream/promises"
import type { DuckDBConnection } from "@duckdb/node-api"
import pg from "pg"
import { to as copyTo } from "pg-copy-streams"
import { z } from "zod"
import { Settings } from "../domain/settings"
import { connect } from "../store/connect"
import { rawTables, type RawTable } from "./raw-tables"

/** The clinic and its settings as the record store holds them. */
export type ClinicRow = { name: string; timeZone: string; isDemo: boolean; settings: Settings }

/**
 * Copies the facts in force (or, with `knownAt`, the facts as they stood at that instant) into tables `loaded_<name>` of the engine.
 * One repeatable-read transaction, so the copy is of one moment. While the engine reads one file, Postgres writes the next.
 */
export async function loadFacts(options: {
  databaseUrl: string
  connection: DuckDBConnection
  workDir: string
  knownAt?: string
  onProgress?: (text: string) => void
}): Promise<ClinicRow> {
  const { connection, workDir, knownAt, onProgress } = options
  const client = await connect(options.databaseUrl)
  let reading: Promise<unknown> = Promise.resolve()
  try {
    await client.query("begin isolation level repeatable read read only")
    await client.query("set local datestyle to iso")
    const clinic = await readClinic(client)
    for (const table of rawTables) {
      const file = path.join(workDir, `${table.name}.csv`)
      await pipeline(client.query(copyTo(copySql(table, clinic.timeZone, knownAt))), createWriteStream(file))
      await reading
      reading = readInto(connection, table, file).then(() =>
        onProgress?.(`Loaded ${table.ledger.split(" ")[0]}`),
      )
      reading.catch(() => {})
    }
    await reading
    await loadMappings(client, connection)
    await connection.run(noDecisions)
    await client.query("commit")
    return clinic
  } finally {
    // A connection of the engine must not be closed while it reads: that never ends.
    await reading.catch(() => {})
    await client.end().catch(() => {})
  }
}

// Decisions are read by the exceptions; nothing records them yet.
const noDecisions = `create or replace table decisions(
  patient_id varchar, topic varchar, kind varchar, made_on date, ends_on date, undone_on date)`

export function copySql(table: RawTable, timeZone: string, knownAt?: string): string {
  const zone = pg.escapeLiteral(timeZone)
  const columns = Object.keys(table.columns).map((column) =>
    (table.expressions?.[column] ?? column).replaceAll("$tz", zone),
  )
  const inForce = knownAt
    ? `known_at <= ${pg.escapeLiteral(knownAt)} and (ended_at is null or ended_at > ${pg.escapeLiteral(knownAt)})`
    : "ended_at is null"
  const where = [inForce, table.where].filter(Boolean).join(" and ")
  return `copy (select ${columns.join(", ")} from ${table.ledger} where ${where}) to stdout (format csv)`
}

async function readInto(connection: DuckDBConnection, table: RawTable, file: string): Promise<void> {
  const columns = Object.entries(table.columns).map(([name, type]) => `'${name}': '${type}'`)
  await connection.run(
    `create or replace temp table ${table.isFact ? `loaded_${table.name}` : table.name} as
     select * from read_csv('${file.replaceAll("'", "''")}', columns = {${columns.join(", ")}},
       header = false, auto_detect = false, delim = ',', quote = '"', escape = '"', nullstr = '')`,
  )
  await rm(file)
}

async function readClinic(client: pg.Client): Promise<ClinicRow> {
  const clinics = await client.query("select name, time_zone, is_demo from clinics limit 1")
  const settings = await client.query("select key, value from settings")
  const stored = z.array(z.object({ key: z.string(), value: z.json() })).parse(settings.rows)
  const clinic = z
    .object({ name: z.string(), time_zone: z.string(), is_demo: z.boolean() })
    .optional()
    .parse(clinics.rows[0])
  return {
    name: clinic?.name ?? "Kidney clinic",
    timeZone: clinic?.time_zone ?? "UTC",
    isDemo: clinic?.is_demo ?? false,
    settings: Settings.parse(Object.fromEntries(stored.map(({ key, value }) => [key, value]))),
  }
}

async function loadMappings(client: pg.Client, connection: DuckDBConnection): Promise<void> {
  const result = await client.query("select text, ingredients, is_ignored from drug_name_mappings")
  const Mapping = z.object({ text: z.string(), ingredients: z.array(z.string()), is_ignored: z.boolean() })
  await connection.run(
    "create or replace table drug_name_mappings(text varchar, ingredients varchar[], is_ignored boolean)",
  )
  for (const mapping of z.array(Mapping).parse(result.rows))
    await connection.run(
      "insert into drug_name_mappings select $text, string_split($ingredients, ';'), $is_ignored",
      { text: mapping.text, ingredients: mapping.ingredients.join(";"), is_ignored: mapping.is_ignored },
    )
}
