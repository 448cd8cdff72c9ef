import "server-only"
import { mkdir, rm } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance } from "@duckdb/node-api"
import type { ClosedMonth } from "../domain/closed-month"
import { closedFile, sweepClosed } from "./closed-file"
import { computeAll } from "./compute"
import { loadFacts } from "./load"
import { putClosedMonths } from "./put-closed-months"
import { putSinceClosing } from "./put-since-closing"
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
  /** The months that are closed. */
  closed?: readonly ClosedMonth[]
  onProgress?: (text: string) => void
}): Promise<string> {
  const { dataDir, builtAt } = options
  await sweepBuilds(dataDir)
  const workDir = path.join(snapshotDir(dataDir), `build-${process.pid}`)
  await rm(workDir, { recursive: true, force: true })
  await mkdir(workDir, { recursive: true })
  try {
    const builtFile = path.join(workDir, "snapshot.duckdb")
    const inReach = (options.closed ?? []).filter((month) => isInReach(month.asOf, builtAt))
    const closed = []
    for (const month of inReach)
      closed.push({ month, file: await closedFile({ ...options, workDir, month }) })
    await fill(builtFile, { ...options, workDir, closed })
    const name = `snapshot-${builtAt.getTime()}-${process.pid}.duckdb`
    await publishSnapshot({ dataDir, builtFile, name })
    await sweepClosed(dataDir, inReach)
    return name
  } finally {
    await rm(workDir, { recursive: true, force: true })
  }
}

/** Whether a snapshot built then has the month: it goes back 36 months before the running one. */
function isInReach(asOf: string, builtAt: Date): boolean {
  const first = new Date(builtAt)
  first.setUTCFullYear(first.getUTCFullYear() - 4)
  return asOf >= first.toISOString().slice(0, 10)
}

async function fill(
  file: string,
  options: Omit<Parameters<typeof buildSnapshot>[0], "closed"> & {
    workDir: string
    closed: readonly { month: ClosedMonth; file: string }[]
  },
): Promise<void> {
  const { workDir } = options
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
    const clinic = await loadFacts({ ...options, connection })
    const today = options.todayIn(clinic.timeZone)
    await computeAll(connection, { settings: clinic.settings, today, onProgress: options.onProgress })
    await putClosedMonths(connection, options.closed)
    await putSinceClosing(connection, { closed: options.closed.map(({ month }) => month), today: clinic })
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
