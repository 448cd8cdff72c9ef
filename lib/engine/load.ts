import "server-only"
import { createWriteStream } from "node:fs"
import { rm } from "node:fs/promises"
import path from "node:path"
import { pipeline } from "node:stream/promises"
import type { DuckDBConnection } from "@duckdb/node-api"
import pg from "pg"
import { to as copyTo } from "pg-copy-streams"
import { z } from "zod"
import { KeptMapping, type ClosedMonth } from "../domain/closed-month"
import { Settings } from "../domain/settings"
import { connect } from "../store/connect"
import { rawTables, type RawTable } from "./raw-tables"

/** The clinic and its settings as the record store holds them. */
export type ClinicRow = { name: string; timeZone: string; isDemo: boolean; settings: Settings }

/** The clinic with what persons said its drug texts mean, as they were loaded. */
export type LoadedClinic = ClinicRow & { mappings: readonly KeptMapping[] }

/**
 * Copies the facts in force (or, with `knownAt`, the facts as they stood at that instant) into tables `loaded_<name>` of the engine.
 * One repeatable-read transaction, so the copy is of one moment. While the engine reads one file, Postgres writes the next.
 */
export async function loadFacts(options: {
  databaseUrl: string
  connection: DuckDBConnection
  workDir: string
  knownAt?: string
  /** A month that was closed: its facts as known then, by its time zone and its meanings of drug texts. */
  closing?: ClosedMonth
  onProgress?: (text: string) => void
}): Promise<LoadedClinic> {
  const { connection, workDir, closing, onProgress } = options
  const knownAt = closing ? closing.closedAt.toISOString() : options.knownAt
  const client = await connect(options.databaseUrl)
  let reading: Promise<unknown> = Promise.resolve()
  try {
    await client.query("begin isolation level repeatable read read only")
    await client.query("set local datestyle to iso")
    const today = await readClinic(client)
    const clinic = { ...today, timeZone: closing?.timeZone ?? today.timeZone }
    for (const table of rawTables) {
      const file = path.join(workDir, `${table.name}.csv`)
      await pipeline(
        client.query(
          copyTo(
            copySql(table, { timeZone: clinic.timeZone, knownAt, throughImport: closing?.throughImport }),
          ),
        ),
        createWriteStream(file),
      )
      await reading
      reading = readInto(connection, table, file).then(() =>
        onProgress?.(`Loaded ${table.ledger.split(" ")[0]}`),
      )
      reading.catch(() => {})
    }
    await reading
    const mappings = closing?.mappings ?? (await readMappings(client))
    await loadMappings(connection, mappings)
    await loadDecisions(connection, await readDecisions(client, knownAt))
    await client.query("commit")
    return { ...clinic, mappings }
  } finally {
    // A connection of the engine must not be closed while it reads: that never ends.
    await reading.catch(() => {})
    await client.end().catch(() => {})
  }
}

const Decision = z.object({
  patient_id: z.string(),
  topic: z.string(),
  kind: z.string(),
  made_on: z.string(),
  ends_on: z.string().nullable(),
  undone_on: z.string().nullable(),
})

/** Clinicians' decisions, as they stand now or, with `knownAt`, as they stood at that instant. */
async function readDecisions(
  client: pg.Client,
  knownAt: string | undefined,
): Promise<z.infer<typeof Decision>[]> {
  const result = await client.query(
    `select patient_id, topic, kind, made_on::text, ends_on::text,
       case when undone_at <= coalesce($1::timestamptz, undone_at) then undone_on::text end as undone_on
     from clinician_decisions
     where made_at <= coalesce($1::timestamptz, made_at)
     order by id`,
    [knownAt ?? null],
  )
  return z.array(Decision).parse(result.rows)
}

async function loadDecisions(
  connection: DuckDBConnection,
  decisions: readonly z.infer<typeof Decision>[],
): Promise<void> {
  await connection.run(
    `create or replace temp table decisions_raw(
       patient_id varchar, topic varchar, kind varchar, made_on date, ends_on date, undone_on date)`,
  )
  await connection.run(
    `insert into decisions_raw by name
     select unnest(from_json($rows, '[{"patient_id": "varchar", "topic": "varchar", "kind": "varchar",
       "made_on": "date", "ends_on": "date", "undone_on": "date"}]'), recursive := true)`,
    { rows: JSON.stringify(decisions) },
  )
}

export function copySql(
  table: RawTable,
  as: { timeZone: string; knownAt?: string | undefined; throughImport?: number | undefined },
): string {
  const { knownAt, throughImport } = as
  const zone = pg.escapeLiteral(as.timeZone)
  const columns = Object.keys(table.columns).map((column) =>
    (table.expressions?.[column] ?? column).replaceAll("$tz", zone),
  )
  const where = [versionsSql(knownAt, throughImport), table.where].filter(Boolean).join(" and ")
  return `copy (select ${columns.join(", ")} from ${table.ledger} where ${where}) to stdout (format csv)`
}

/** The versions in force now, or those that were at an instant, when `throughImport` was the last import. */
function versionsSql(knownAt: string | undefined, throughImport: number | undefined): string {
  if (knownAt === undefined) return "ended_at is null"
  const instant = pg.escapeLiteral(knownAt)
  const through = throughImport === undefined ? "" : ` and import_id <= ${throughImport}`
  const endedLater = throughImport === undefined ? "" : ` or ended_by > ${throughImport}`
  return `known_at <= ${instant}${through} and (ended_at is null or ended_at > ${instant}${endedLater})`
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

async function readMappings(client: pg.Client): Promise<KeptMapping[]> {
  const result = await client.query(
    `select text, ingredients, is_ignored as "isIgnored" from drug_name_mappings`,
  )
  return z.array(KeptMapping).parse(result.rows)
}

/** What persons said drug texts mean, as a table of the engine; a temporary one hides that of the snapshot. */
export async function loadMappings(
  connection: DuckDBConnection,
  mappings: readonly KeptMapping[],
  kind: "table" | "temp table" = "table",
): Promise<void> {
  await connection.run(
    `create or replace ${kind} drug_name_mappings(text varchar, ingredients varchar[], is_ignored boolean)`,
  )
  for (const mapping of mappings)
    await connection.run(
      "insert into drug_name_mappings select $text, string_split($ingredients, ';'), $is_ignored",
      { text: mapping.text, ingredients: mapping.ingredients.join(";"), is_ignored: mapping.isIgnored },
    )
}
