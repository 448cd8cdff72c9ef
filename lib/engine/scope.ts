import "server-only"
import { randomBytes } from "node:crypto"
import type { DuckDBConnection } from "@duckdb/node-api"
import { isWhole, type Scope } from "../access/scope"
import { tablesOfNobody, type TableOfNobody } from "./scope-tables"
import { createFormulas } from "./views"

/** A table or view of the snapshot with its columns. */
type Found = { name: string; columns: string[] }

const siteBreak = "\u001f"

/**
 * Attaches a snapshot to a connection of an instance in memory, under the name `snapshot`, with what the scope holds and
 * nothing else. For a part of the clinic `snapshot` is made of views over the file, which itself is attached under a name
 * that nothing can know; every table with a patient in it is filtered to the people in scope. A table that neither has a
 * patient in it nor is on the list of those that have none makes this fail.
 */
export async function attachWithin(
  connection: DuckDBConnection,
  { file, scope }: { file: string; scope: Scope },
): Promise<void> {
  const path = `'${file.replaceAll("'", "''")}'`
  if (isWhole(scope)) {
    await connection.run(`attach ${path} as snapshot (read_only)`)
    await connection.run("use snapshot")
    return
  }
  const whole = `whole_${randomBytes(16).toString("hex")}`
  await connection.run(`attach ${path} as ${whole} (read_only)`)
  await connection.run("attach ':memory:' as snapshot")
  await choosePeople(connection, { whole, scope })
  await connection.run("use snapshot")
  await createFormulas(connection)
  await narrow(connection, whole)
}

/** Who is in scope, by the record of the person as it stands. */
async function choosePeople(
  connection: DuckDBConnection,
  { whole, scope }: { whole: string; scope: Scope },
): Promise<void> {
  await connection.run(
    `create table memory.main.people_in_scope as
     select people.patient_id
     from ${whole}.main.people as people
     where (cast($sites as varchar) is null
         or people.site in (select unnest(string_split(cast($sites as varchar), '${siteBreak}'))))
       and (cast($panel_of as varchar) is null or people.clinician_id = cast($panel_of as varchar))`,
    { sites: scope.sites?.join(siteBreak) ?? null, panel_of: scope.panelOf },
  )
}

async function narrow(connection: DuckDBConnection, whole: string): Promise<void> {
  const listed = tablesOfNobody()
  const found = await tablesOf(connection, whole)
  const isOfPeople = (table: Found) => table.columns.includes("patient_id")
  const unknown = found.filter((table) => !isOfPeople(table) && !listed.has(table.name))
  if (unknown.length > 0)
    throw new Error(`no list says whose these tables are: ${unknown.map((table) => table.name).join(", ")}`)
  for (const table of found.filter(isOfPeople))
    await view(connection, {
      ...{ table, whole },
      where: "t.patient_id in (select s.patient_id from memory.main.people_in_scope as s)",
    })
  for (const [name, way] of listed) {
    const table = found.find((one) => one.name === name)
    if (table) await hand(connection, { table, whole, way })
  }
}

async function hand(
  connection: DuckDBConnection,
  { table, whole, way }: { table: Found; whole: string; way: TableOfNobody },
): Promise<void> {
  switch (way.kind) {
    case "left out":
      return
    case "shared":
      return view(connection, { table, whole, where: "true" })
    case "by order":
      return view(connection, { table, whole, where: "t.order_key in (select o.order_key from orders as o)" })
    case "anew":
      await connection.run(`create table ${table.name} as ${way.sql.replaceAll("whole.", `${whole}.main.`)}`)
  }
}

async function view(
  connection: DuckDBConnection,
  { table, whole, where }: { table: Found; whole: string; where: string },
): Promise<void> {
  const columns = table.columns.map((column) => `t."${column}"`).join(", ")
  await connection.run(
    `create view ${table.name} as select ${columns} from ${whole}.main.${table.name} as t where ${where}`,
  )
}

async function tablesOf(connection: DuckDBConnection, whole: string): Promise<Found[]> {
  const reader = await connection.runAndReadAll(
    `select c.table_name, c.column_name
     from duckdb_columns() as c
     where c.database_name = $whole and not c.internal
     order by c.table_name, c.column_index`,
    { whole },
  )
  const columnsByTable = new Map<string, string[]>()
  for (const [table, column] of reader.getRows()) {
    const columns = columnsByTable.get(String(table)) ?? []
    columns.push(String(column))
    columnsByTable.set(String(table), columns)
  }
  return [...columnsByTable].map(([name, columns]) => ({ name, columns }))
}
