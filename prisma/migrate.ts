import { existsSync, readdirSync, readFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"
import type { MigrationList } from "@prisma/schema-engine-wasm"
import pg from "pg"
import { withSchemaEngine } from "./schema-engine"

const migrationsDir = fileURLToPath(new URL("./migrations", import.meta.url))

/** Applies every migration the database lacks, and returns their names; none when it is up to date. */
export async function migrate(url: string): Promise<string[]> {
  const names = migrationNames()
  const applied = new Set(await appliedNames(url))
  if (names.every((name) => applied.has(name))) return []
  const outcome = await withSchemaEngine(url, (engine) =>
    engine.applyMigrations({ migrationsList: listMigrations(names), filters: noFilters }),
  )
  return outcome.appliedMigrationNames
}

export const noFilters = { externalTables: [], externalEnums: [] }

function migrationNames(): string[] {
  return readdirSync(migrationsDir, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
}

function listMigrations(names: string[]): MigrationList {
  const lockfile = path.join(migrationsDir, "migration_lock.toml")
  return {
    baseDir: migrationsDir,
    lockfile: {
      path: "migration_lock.toml",
      content: existsSync(lockfile) ? readFileSync(lockfile, "utf8") : null,
    },
    shadowDbInitScript: "",
    migrationDirectories: names.map((name) => ({
      path: name,
      migrationFile: {
        path: "migration.sql",
        content: { tag: "ok", value: readFileSync(path.join(migrationsDir, name, "migration.sql"), "utf8") },
      },
    })),
  }
}

/** A cheap look, so that a command on an up-to-date database does not pay for loading the engine. */
async function appliedNames(url: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: url })
  // A server that is stopped between two queries is noticed by the next; it must not end the process.
  client.on("error", () => {})
  await client.connect()
  try {
    const table = await client.query("select to_regclass('_prisma_migrations') is not null as exists")
    if (!table.rows[0]?.exists) return []
    const rows = await client.query<{ migration_name: string }>(
      "select migration_name from _prisma_migrations where finished_at is not null and rolled_back_at is null",
    )
    return rows.rows.map((row) => row.migration_name)
  } finally {
    await client.end()
  }
}
