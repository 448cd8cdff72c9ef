import "server-only"
import { databaseRoles, outreachTables, patientTables, rightsByTable, type DatabaseRole } from "./rights"

/** The roles by their names in the cluster, already quoted where they need it. */
export type RoleNames = Readonly<Partial<Record<DatabaseRole, string>>>

/**
 * The statements that leave each role with what the list says and nothing else, to be run by the owner of the tables.
 * `tables` are those there are: of the list, those of an older program may be missing.
 */
export function rightsSql(roles: RoleNames, tables: readonly string[]): string[] {
  return [
    "revoke all on schema public from public",
    "revoke all on all tables in schema public from public",
    "revoke all on all functions in schema public from public",
    ...databaseRoles.flatMap((role) => {
      const name = roles[role]
      return name === undefined ? [] : rightsOf({ role, name, tables })
    }),
  ]
}

function rightsOf(of: { role: DatabaseRole; name: string; tables: readonly string[] }): string[] {
  const { role, name, tables } = of
  const granted = Object.entries(rightsByTable).flatMap(([table, rights]) =>
    rights[role] !== undefined && tables.includes(table)
      ? [`grant ${rights[role]} on ${table} to ${name}`]
      : [],
  )
  return [
    `revoke all on all tables in schema public from ${name}`,
    `revoke all on all sequences in schema public from ${name}`,
    `grant usage on schema public to ${name}`,
    ...granted,
    ...(role === "snapshot" ? [] : [`grant usage on all sequences in schema public to ${name}`]),
    ...(role === "snapshot" ? [`grant usage on sequence snapshot_builds_id_seq to ${name}`] : []),
    ...(role === "snapshot" ? outreachTables.filter((table) => tables.includes(table)) : []).map(
      (table) => `grant usage on sequence ${table}_id_seq to ${name}`,
    ),
    `grant execute on all functions in schema public to ${name}`,
    ...(role === "app" ? [] : policiesOf({ role, name, tables })),
  ]
}

/** Imports and the snapshot are about everybody: they see every row that they may read at all. */
function policiesOf(of: { role: DatabaseRole; name: string; tables: readonly string[] }): string[] {
  const { role, name, tables } = of
  const secured = [...patientTables, ...(role === "import" ? ["rejected_rows"] : [])]
  const whole = `to ${name} using (true) with check (true)`
  const isWritten = (table: string) => role === "import" || outreachTables.some((one) => one === table)
  return secured
    .filter((table) => tables.includes(table))
    .flatMap((table) => [
      `drop policy if exists for_${role} on ${table}`,
      `create policy for_${role} on ${table} ${isWritten(table) ? whole : `for select to ${name} using (true)`}`,
    ])
}
