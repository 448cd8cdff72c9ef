import "server-only"
import path from "node:path"
import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import type { Scope } from "../access/scope"
import { attachWithin } from "./scope"
import { requireSnapshot, snapshotDir } from "./snapshot"

/** An instance that has a snapshot attached as one scope holds it. */
type Warm = { key: string; opened: Promise<DuckDBInstance>; letGo: NodeJS.Timeout | null }

declare global {
  var filtrateWarm: Warm | null | undefined
}

/** Long enough for somebody who looks from one choice to the next. */
const keptMs = 5 * 60_000

/**
 * Runs `work` over a connection to the current snapshot, as the scope holds it, under the name `snapshot`, with room for
 * temporary tables. The instance behind it is kept for a while, since opening one and reading the file anew would take longer
 * than most answers; there is one, so only one may be at work at a time.
 */
export async function overWarm<T>(
  options: { dataDir: string; scope: Scope },
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const warm = await warmFor(options)
  try {
    const instance = await warm.opened.catch(async (cause) => {
      await closeWarm()
      throw cause
    })
    const connection = await instance.connect()
    try {
      await connection.run("use snapshot")
      return await work(connection)
    } finally {
      connection.closeSync()
    }
  } finally {
    warm.letGo = setTimeout(() => void closeWarm(), keptMs).unref()
  }
}

async function warmFor(options: { dataDir: string; scope: Scope }): Promise<Warm> {
  const file = requireSnapshot(options.dataDir)
  const key = JSON.stringify([file, options.scope.sites?.toSorted() ?? null, options.scope.panelOf])
  const known = globalThis.filtrateWarm
  if (known) clearTimeout(known.letGo ?? undefined)
  if (known?.key === key) return known
  await closeWarm()
  return (globalThis.filtrateWarm = { key, opened: open({ ...options, file }), letGo: null })
}

/** Lets go of the instance that is kept, and of its memory. */
export async function closeWarm(): Promise<void> {
  const warm = globalThis.filtrateWarm
  globalThis.filtrateWarm = null
  if (!warm) return
  clearTimeout(warm.letGo ?? undefined)
  const instance = await warm.opened.catch(() => null)
  instance?.closeSync()
}

async function open(options: { dataDir: string; scope: Scope; file: string }): Promise<DuckDBInstance> {
  const instance = await DuckDBInstance.create(":memory:", {
    threads: "2",
    memory_limit: "1GB",
    // Made only when it is needed; what a process that was killed leaves there goes with the builds.
    temp_directory: path.join(snapshotDir(options.dataDir), `build-${process.pid}-what-if`),
    preserve_insertion_order: "false",
  })
  const connection = await instance.connect()
  try {
    await attachWithin(connection, options)
    return instance
  } catch (cause) {
    instance.closeSync()
    throw cause
  } finally {
    connection.closeSync()
  }
}
