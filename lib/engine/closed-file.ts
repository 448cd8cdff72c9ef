import "server-only"
import { existsSync } from "node:fs"
import { mkdir, open, readdir, rename, rm } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance } from "@duckdb/node-api"
import type { ClosedMonth } from "../domain/closed-month"
import { closedTables } from "./closed-tables"
import { computeAll } from "./compute"
import { definitionsHash } from "./definitions"
import { loadFacts } from "./load"
import { createFormulas, loadCodeLists } from "./views"

/** Where what closed months were computed to is kept, so that it is computed once. */
export function closedDir(dataDir: string): string {
  return path.join(dataDir, "closed")
}

type Options = {
  databaseUrl: string
  dataDir: string
  /** A folder for what is made on the way. */
  workDir: string
  month: ClosedMonth
  onProgress?: (text: string) => void
}

/** The file with the rows of one closed month as known when it was closed; computed when it is not there. */
export async function closedFile(options: Options): Promise<string> {
  const { month, dataDir, onProgress } = options
  const file = path.join(closedDir(dataDir), nameOf(month))
  if (existsSync(file)) return file
  onProgress?.(`Computing ${month.asOf.slice(0, 7)} as known when it was closed`)
  await mkdir(closedDir(dataDir), { recursive: true, mode: 0o700 })
  const made = path.join(options.workDir, `closed-${month.id}.duckdb`)
  await computeClosed(options, made)
  const handle = await open(made, "r")
  await handle.sync()
  await handle.close()
  await rename(made, file)
  return file
}

/** Removes the files of months that were opened again, and of earlier definitions. */
export async function sweepClosed(dataDir: string, inForce: readonly ClosedMonth[]): Promise<void> {
  const kept = new Set(inForce.map(nameOf))
  for (const name of await readdir(closedDir(dataDir)).catch(() => []))
    if (!kept.has(name)) await rm(path.join(closedDir(dataDir), name), { recursive: true, force: true })
}

function nameOf(month: ClosedMonth): string {
  return `${month.id}-${month.closedAt.getTime()}-${definitionsHash().slice(0, 16)}.duckdb`
}

/** Computes the month from the facts known when it was closed, by its settings, into a file of its own. */
export async function computeClosed(options: Omit<Options, "dataDir">, file: string): Promise<void> {
  const { month, workDir } = options
  const whole = path.join(workDir, `as-known-${month.id}.duckdb`)
  await rm(whole, { force: true })
  const instance = await DuckDBInstance.create(whole, {
    threads: "2",
    memory_limit: "3GB",
    temp_directory: path.join(workDir, "spill"),
    preserve_insertion_order: "false",
    checkpoint_threshold: "100GB",
  })
  const connection = await instance.connect()
  try {
    await createFormulas(connection)
    await loadCodeLists(connection)
    await loadFacts({
      ...{ databaseUrl: options.databaseUrl, connection, workDir },
      closing: month,
    })
    await computeAll(connection, { settings: month.settings, onlyMonthEnd: month.asOf })
    await connection.run(`attach '${file.replaceAll("'", "''")}' as kept`)
    for (const table of [...closedTables, "drug_sets", ...counted])
      await connection.run(`create table kept.main.${table} as select t.* from ${table} as t`)
    await connection.run("detach kept")
  } finally {
    connection.closeSync()
    instance.closeSync()
    await rm(whole, { force: true })
    await rm(`${whole}.wal`, { force: true })
  }
}

const counted = ["measure_months", "measure_in_month", "diet_months"]
