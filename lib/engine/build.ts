import "server-only"
import { mkdir, rm } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance } from "@duckdb/node-api"
import { computeAll } from "./compute"
import { loadFacts } from "./load"
import { publishSnapshot, snapshotDir, sweepBuilds } from "./snapshot"
import { createFormulas, loadCodeLists } from "./views"

/**
 * Builds a snapshot of the record store beside the current one and swaps it in; returns its file name.
 * Whatever fails, the current one goes on serving.
 */
export async function buildSnapshot(options: {
  databaseUrl: string
  dataDir: string
  /** Today in the clinic's time zone, given the zone. */
  todayIn: (timeZone: string) => string
  builtAt: Date
  knownAt?: string
  onProgress?: (text: string) => void
}): Promise<string> {
  const { dataDir, builtAt } = options
  await sweepBuilds(dataDir)
  const workDir = path.join(snapshotDir(dataDir), `build-${process.pid}`)
  await rm(workDir, { recursive: true, force: true })
  await mkdir(workDir, { recursive: true })
  try {
    const builtFile = path.join(workDir, "snapshot.duckdb")
    await fill(builtFile, workDir, options)
    const name = `snapshot-${builtAt.getTime()}-${process.pid}.duckdb`
    await publishSnapshot({ dataDir, builtFile, name })
    return name
  } finally {
    await rm(workDir, { recursive: true, force: true })
  }
}

async function fill(
  file: string,
  workDir: string,
  options: Parameters<typeof buildSnapshot>[0],
): Promise<void> {
  const instance = await DuckDBInstance.create(file, {
    threads: "2",
    memory_limit: "3GB",
    temp_directory: path.join(workDir, "spill"),
    preserve_insertion_order: "false",
    // One checkpoint at the end: a build that is cut short is thrown away, so none before it is of use.
    checkpoint_threshold: "100GB",
  })
  const connection = await instance.connect()
  try {
    await createFormulas(connection)
    await loadCodeLists(connection)
    const clinic = await loadFacts({ ...options, connection, workDir })
    const today = options.todayIn(clinic.timeZone)
    await computeAll(connection, { settings: clinic.settings, today, onProgress: options.onProgress })
    await connection.run(
      `create or replace table snapshot_meta as
       select $built_at as built_at, cast($today as date) as today, $time_zone as time_zone,
         $clinic_name as clinic_name, cast($is_demo as boolean) as is_demo, $settings as settings`,
      {
        built_at: options.builtAt.toISOString(),
        today,
        time_zone: clinic.timeZone,
        clinic_name: clinic.name,
        is_demo: clinic.isDemo,
        settings: JSON.stringify(clinic.settings),
      },
    )
    await connection.run("checkpoint")
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
}
