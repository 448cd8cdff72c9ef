import pg from "pg"
import { afterAll, beforeAll, expect, test } from "vitest"
import { migrate } from "../../../prisma/migrate"
import { readSchema, schemaPath, withSchemaEngine } from "../../../prisma/schema-engine"
import { createDatabase } from "../../helpers/open-store"

let declared: { url: string; drop: () => Promise<void> }
let migrated: { url: string; drop: () => Promise<void> }

beforeAll(async () => {
  declared = await createDatabase()
  migrated = await createDatabase()
  const script = await withSchemaEngine(declared.url, (engine) =>
    engine.diff({
      from: { tag: "empty" },
      to: { tag: "schemaDatamodel", files: [{ path: schemaPath, content: readSchema() }] },
      script: true,
      exitCode: null,
      filters: { externalTables: [], externalEnums: [] },
    }),
  )
  await query(declared.url, script.stdout ?? "")
  await migrate(migrated.url)
})

afterAll(async () => {
  await declared.drop()
  await migrated.drop()
})

test("the migrations end in the columns that the schema declares", async () => {
  const columns = `
    select table_name, column_name, data_type, is_nullable, column_default, datetime_precision
    from information_schema.columns
    where table_schema = 'public' and table_name <> '_prisma_migrations'
    order by table_name, column_name`

  const rows = await query(migrated.url, columns)

  expect(rows.length).toBeGreaterThan(100)
  expect(rows).toEqual(await query(declared.url, columns))
})

test("the migrations end in the keys and references that the schema declares", async () => {
  const constraints = `
    select conrelid::regclass::text as table_name, conname, pg_get_constraintdef(oid) as definition
    from pg_constraint
    where contype in ('p', 'f', 'u') and connamespace = 'public'::regnamespace
      and conrelid::regclass::text <> '_prisma_migrations'
    order by 1, 2`

  const rows = await query(migrated.url, constraints)

  expect(rows.length).toBeGreaterThan(30)
  expect(rows).toEqual(await query(declared.url, constraints))
})

test("beyond the declared indexes the migrations add only the ones on versions, closings, cases and decisions in force", async () => {
  const indexes = `
    select indexname, indexdef from pg_indexes
    where schemaname = 'public' and tablename <> '_prisma_migrations' order by 1`
  const isInForce = (row: Record<string, unknown>) => String(row.indexname).endsWith("_in_force")

  const rows = await query(migrated.url, indexes)

  expect(rows.filter(isInForce)).toHaveLength(16)
  expect(rows.filter((row) => !isInForce(row))).toEqual(await query(declared.url, indexes))
})

test("records each migration as the usual command does, and applies it once", async () => {
  const again = await migrate(migrated.url)

  const rows = await query(
    migrated.url,
    "select migration_name, applied_steps_count, length(checksum) as checksum, finished_at is not null as done from _prisma_migrations",
  )
  expect(again).toEqual([])
  expect(rows).toContainEqual({
    migration_name: "20261125100000_initial",
    applied_steps_count: 1,
    checksum: 64,
    done: true,
  })
})

async function query(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    const outcome = await client.query<Record<string, unknown>>(sql)
    return outcome.rows
  } finally {
    await client.end()
  }
}
