import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import type { z } from "zod"
import { defaultSettings, type Settings } from "../../lib/domain/settings"
import { computeAll } from "../../lib/engine/compute"
import { putClosedMonths } from "../../lib/engine/put-closed-months"
import { putSinceClosing } from "../../lib/engine/put-since-closing"
import { rawTables } from "../../lib/engine/raw-tables"
import { askOn } from "../../lib/engine/run"
import type { Param } from "../../lib/engine/values"
import { createFormulas, loadCodeLists } from "../../lib/engine/views"

/** Rows of the raw tables, and of `decisions`, by name, each with the columns that matter; the others are empty. */
export type RawFacts = Partial<Record<string, Record<string, Param>[]>>

export type TestEngine = {
  connection: DuckDBConnection
  ask: <Row>(question: { sql: string; Row: z.ZodType<Row> }, params?: Record<string, Param>) => Promise<Row[]>
  close: () => void
}

/** An engine in memory over hand-made facts, computed up to `today`; no record store is needed. */
export async function openEngine(
  facts: RawFacts,
  options: { today: string; settings?: Partial<Settings> },
): Promise<TestEngine> {
  const instance = await DuckDBInstance.create(":memory:")
  const connection = await instance.connect()
  await createFormulas(connection)
  await loadCodeLists(connection)
  await fillRawTables(connection, facts)
  await computeAll(connection, {
    settings: { ...defaultSettings, ...options.settings },
    today: options.today,
  })
  await putClosedMonths(connection, [])
  await putSinceClosing(connection, { closed: [], today: { settings: defaultSettings, mappings: [] } })
  return {
    connection,
    ask: (question, params) => askOn(connection, question, params),
    close: () => {
      connection.closeSync()
      instance.closeSync()
    },
  }
}

/** The raw tables as an import would load them, holding these facts. */
export async function fillRawTables(connection: DuckDBConnection, facts: RawFacts): Promise<void> {
  await connection.run(
    "create table drug_name_mappings(text varchar, ingredients varchar[], is_ignored boolean)",
  )
  await connection.run(
    "create table decisions_raw(patient_id varchar, topic varchar, kind varchar, made_on date, ends_on date, undone_on date)",
  )
  let line = 1
  for (const table of rawTables) {
    const columns = Object.entries(table.columns).map(([name, type]) => `${name} ${type}`)
    const name = table.isFact ? `loaded_${table.name}` : table.name
    await connection.run(`create table ${name}(${columns.join(", ")})`)
    for (const row of facts[table.name] ?? []) {
      line += 1
      await insert(connection, { table: name, row: { import_id: 1, line, ...row } })
    }
  }
  for (const row of facts.decisions ?? []) await insert(connection, { table: "decisions_raw", row })
}

async function insert(
  connection: DuckDBConnection,
  { table, row }: { table: string; row: Record<string, Param> },
): Promise<void> {
  const names = Object.keys(row)
  await connection.run(
    `insert into ${table}(${names.join(", ")}) values (${names.map((one) => `$${one}`).join(", ")})`,
    row,
  )
}
