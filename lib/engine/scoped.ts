import "server-only"
import { mkdir } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import { isWhole, type Scope } from "../access/scope"
import { readEnvironment } from "../env"
import { askOn, type Question } from "./run"
import { attachWithin } from "./scope"
import { openSnapshot, requireSnapshot, snapshotDir } from "./snapshot"
import type { Param } from "./values"

/** The snapshot as one scope holds it, with how many are just asking it. */
type Part = { opened: Promise<DuckDBInstance>; asking: number; isLetGo: boolean }

declare global {
  var filtrateParts: Map<string, Part> | undefined
}

/** As many parts of the clinic as are kept open at once; the one not asked for the longest goes first. */
const mostKept = 6

/** Asks what the scope holds of the current snapshot; no question can reach beyond it. */
export function askWithin<Row>(
  scope: Scope,
  question: Question<Row>,
  params: Record<string, Param> = {},
): Promise<Row[]> {
  return withinScope(scope, (connection) => askOn(connection, question, params))
}

/** Runs `work` over a connection to what the scope holds of the current snapshot. */
export async function withinScope<T>(
  scope: Scope,
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const { dataDir } = readEnvironment()
  if (isWhole(scope)) return over(await openSnapshot(dataDir), work)
  const part = partOf(scope, dataDir)
  part.asking += 1
  try {
    return await over(await part.opened, async (connection) => {
      await connection.run("use snapshot")
      return work(connection)
    })
  } finally {
    part.asking -= 1
    closeIfIdle(part)
  }
}

async function over<T>(
  instance: DuckDBInstance,
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const connection = await instance.connect()
  try {
    return await work(connection)
  } finally {
    connection.closeSync()
  }
}

function partOf(scope: Scope, dataDir: string): Part {
  const parts = (globalThis.filtrateParts ??= new Map())
  const file = requireSnapshot(dataDir)
  const key = JSON.stringify([file, scope.sites?.toSorted() ?? null, scope.panelOf])
  const known = parts.get(key)
  const part = known ?? { opened: openPart({ dataDir, file, scope }), asking: 0, isLetGo: false }
  if (!known) part.opened.catch(() => parts.delete(key))
  parts.delete(key)
  parts.set(key, part)
  const isOld = (other: string) => !other.startsWith(JSON.stringify([file]).slice(0, -1))
  for (const [other, old] of parts)
    if (isOld(other) || parts.size > mostKept) {
      parts.delete(other)
      old.isLetGo = true
      closeIfIdle(old)
    }
  return part
}

function closeIfIdle(part: Part): void {
  if (!part.isLetGo || part.asking > 0) return
  void part.opened.then((instance) => instance.closeSync()).catch(() => {})
}

async function openPart(options: { dataDir: string; file: string; scope: Scope }): Promise<DuckDBInstance> {
  const spill = path.join(snapshotDir(options.dataDir), `build-${process.pid}-parts`)
  await mkdir(spill, { recursive: true })
  const instance = await DuckDBInstance.create(":memory:", {
    threads: "2",
    memory_limit: "384MB",
    temp_directory: spill,
  })
  await over(instance, async (connection) => {
    await attachWithin(connection, options)
    // From here on no statement reaches another file, nor changes that.
    await connection.run("set enable_external_access = false")
    await connection.run("set lock_configuration = true")
  })
  return instance
}
