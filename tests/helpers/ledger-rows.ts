import type { FactKind } from "../../lib/domain/fact-kinds"
import { ledgers } from "../../lib/domain/ledgers"
import type { TestStore } from "./open-store"

type Row = Record<string, unknown>

/** The facts of one kind that are in force, by column, dates and instants as Postgres writes them in UTC. */
export async function inForce(store: TestStore, kind: FactKind): Promise<Row[]> {
  const { table, columns } = ledgers[kind]
  const shown = columns.map(([name, type]) =>
    type === "date" || type === "instant" ? `${name}::text` : name,
  )
  await store.client.query("set timezone to 'UTC'")
  const result = await store.client.query(
    `select ${shown.join(", ")} from ${table} where ended_at is null order by import_id, line`,
  )
  return result.rows
}

/** Every version of one kind with the row that brought it and how it ended. */
export async function versions(store: TestStore, kind: FactKind): Promise<Row[]> {
  const { table } = ledgers[kind]
  const result = await store.client.query(
    `select import_id, line, ended_by, end_reason from ${table} order by import_id, line`,
  )
  return result.rows
}

export async function rejectedRows(store: TestStore, importId: number): Promise<Row[]> {
  const result = await store.client.query(
    `select file, line, column_name, value, code, message, original from rejected_rows
     where import_id = $1 order by id`,
    [importId],
  )
  return result.rows
}

/** One line for each ledger: how many versions, and a sum over everything they hold. */
export async function ledgerSums(store: TestStore): Promise<Row[]> {
  const sums = Object.values(ledgers).map(
    ({ table }) => `select '${table}' as ledger, count(*)::int as rows,
      md5(coalesce(string_agg(l::text, '|' order by import_id, line), '')) as content from ${table} l`,
  )
  const result = await store.client.query(sums.join(" union all "))
  return result.rows
}

export async function clearStore(store: TestStore): Promise<void> {
  const tables = Object.values(ledgers).map(({ table }) => table)
  await store.client.query(
    `truncate ${tables.join(", ")}, patients, rejected_rows, import_files, imports, settings cascade`,
  )
}
