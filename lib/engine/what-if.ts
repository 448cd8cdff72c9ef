import "server-only"
import { mkdir, rm } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import type { Scope } from "../access/scope"
import type { SettingKey, Settings } from "../domain/settings"
import { AppError } from "../errors"
import { computeUnder } from "./compute"
import { attachWithin } from "./scope"
import { requireSnapshot, snapshotDir } from "./snapshot"

/** The one under way: how to stop it, and when it has let go of its memory. */
type Running = { stop: AbortController; ended: Promise<unknown> }

const interruptEveryMs = 20

declare global {
  var filtrateWhatIf: { running: Running | null; asked: number } | undefined
}

/**
 * Runs `work` over a connection on which every month stands as it would under other settings; the snapshot itself is only
 * read, under the name `snapshot`. One at a time, so that the screens keep their share of the machine: a newer one stops
 * the one under way, which ends in AppError("superseded").
 */
export async function whatIf<T>(
  options: { dataDir: string; scope: Scope; settings: Settings; changed: readonly SettingKey[] },
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const state = (globalThis.filtrateWhatIf ??= { running: null, asked: 0 })
  const place = (state.asked += 1)
  while (state.running) {
    state.running.stop.abort()
    await state.running.ended.catch(() => {})
    if (place !== state.asked) throw superseded()
  }
  const stop = new AbortController()
  const answer = answerUnder({ ...options, signal: stop.signal, place }, work)
  const running = { stop, ended: answer }
  state.running = running
  try {
    return await answer
  } catch (cause) {
    throw stop.signal.aborted ? superseded(cause) : cause
  } finally {
    if (state.running === running) state.running = null
  }
}

async function answerUnder<T>(
  options: {
    dataDir: string
    scope: Scope
    settings: Settings
    changed: readonly SettingKey[]
    signal: AbortSignal
    place: number
  },
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const { dataDir, signal } = options
  const file = requireSnapshot(dataDir)
  const spill = path.join(snapshotDir(dataDir), `build-${process.pid}-what-if-${options.place}`)
  await mkdir(spill, { recursive: true })
  const instance = await DuckDBInstance.create(":memory:", {
    threads: "2",
    memory_limit: "1GB",
    temp_directory: spill,
    preserve_insertion_order: "false",
  })
  const connection = await instance.connect()
  // An interruption that falls between two statements stops neither, so it is repeated until the work has ended.
  const stopping = setInterval(() => {
    if (signal.aborted) connection.interrupt()
  }, interruptEveryMs)
  try {
    await attachWithin(connection, { file, scope: options.scope })
    signal.throwIfAborted()
    await computeUnder(connection, options)
    signal.throwIfAborted()
    return await work(connection)
  } finally {
    clearInterval(stopping)
    connection.closeSync()
    instance.closeSync()
    await rm(spill, { recursive: true, force: true })
  }
}

function superseded(cause?: unknown): AppError {
  return new AppError("superseded", "Another choice was computed in the meantime. Show this one again.", {
    cause,
  })
}
