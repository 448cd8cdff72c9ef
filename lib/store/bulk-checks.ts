import "server-only"
import pg from "pg"
import { z } from "zod"

const Definition = z.object({ name: z.string(), definition: z.string() })
const uniqueViolation = "23505"
const insufficientPrivilege = "42501"

/**
 * May this connection load rows without having their references checked one by one? They are then checked over the whole
 * table, which for a large load costs a tenth. The owner of the embedded server may; a role of another server may not.
 */
export async function canDeferReferences(client: pg.Client): Promise<boolean> {
  await client.query("savepoint references_asked")
  try {
    await client.query("set local session_replication_role = replica")
    await client.query("set local session_replication_role = origin")
    await client.query("release savepoint references_asked")
    return true
  } catch (error) {
    if (!isDatabaseError(error, insufficientPrivilege)) throw error
    await client.query("rollback to savepoint references_asked")
    return false
  }
}

export async function deferReferences(client: pg.Client): Promise<void> {
  await client.query("set local session_replication_role = replica")
}

/** Checks the references of all rows at once, and goes back to checking row by row. */
export async function checkReferences(client: pg.Client, table: string): Promise<void> {
  await client.query("set local session_replication_role = origin")
  if (table === "staff") return
  const result = await client.query(
    `select count(*)::int as strays
     from ${table} l left join patients p on p.patient_id = l.patient_id where p.patient_id is null`,
  )
  const { strays } = z.object({ strays: z.number() }).parse(result.rows[0])
  if (strays > 0) throw new RangeError(`${table} has ${strays} rows of patients without identity`)
}

/** Takes away the index of the versions in force, and gives the statement that puts it back as the catalogue had it. */
export async function dropIndexInForce(client: pg.Client, table: string): Promise<string> {
  const result = await client.query(
    `select quote_ident(c.relname) as name, pg_get_indexdef(i.indexrelid) as definition
     from pg_index i join pg_class c on c.oid = i.indexrelid
     where i.indrelid = $1::regclass and i.indpred is not null`,
    [table],
  )
  const { name, definition } = Definition.parse(result.rows[0])
  await client.query(`drop index ${name}`)
  return definition
}

/** Puts the index back; false, and as if nothing had been tried, when two rows share a key. */
export async function canRestoreIndex(client: pg.Client, definition: string): Promise<boolean> {
  await client.query("savepoint index_tried")
  try {
    await client.query(definition)
    await client.query("release savepoint index_tried")
    return true
  } catch (error) {
    if (!isDatabaseError(error, uniqueViolation)) throw error
    await client.query("rollback to savepoint index_tried")
    return false
  }
}

function isDatabaseError(error: unknown, code: string): boolean {
  return error instanceof pg.DatabaseError && error.code === code
}
