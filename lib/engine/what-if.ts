import "server-only"
import type { DuckDBConnection } from "@duckdb/node-api"
import type { Scope } from "../access/scope"
import type { SettingKey, Settings } from "../domain/settings"
import { AppError } from "../errors"
import { computeUnder } from "./compute"
import { computeLate } from "./compute-late"
import { areLate } from "./late-settings"
import { overWarm } from "./warm-snapshot"

/** The one under way: how to stop it, and when it has let go of its memory. */
type Running = { stop: AbortController; ended: Promise<unknown> }

export type Asked = {
  dataDir: string
  scope: Scope
  settings: Settings
  changed: readonly SettingKey[]
  /** The day on which it is told who would stand elsewhere. */
  asOf: string
}

const interruptEveryMs = 20

declare global {
  var filtrateWhatIf: { running: Running | null; asked: number } | undefined
}

/**
 * Runs `work` over a connection on which the figures of every month are those of other settings, and `tried_moves` names who
 * would stand elsewhere on one day; the snapshot itself is only read, under the name `snapshot`. One at a time, so that the screens keep their share of the machine: a newer one stops
 * the one under way, which ends in AppError("superseded").
 */
export async function whatIf<T>(
  options: Asked,
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
  const answer = answerUnder({ ...options, signal: stop.signal }, work)
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
  options: Asked & { signal: AbortSignal },
  work: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  const { signal } = options
  return overWarm(options, async (connection) => {
    // An interruption that falls between two statements stops neither, so it is repeated until the work has ended.
    const stopping = setInterval(() => {
      if (signal.aborted) connection.interrupt()
    }, interruptEveryMs)
    try {
      signal.throwIfAborted()
      await (areLate(options.changed) ? computeLate : computeUnder)(connection, options)
      signal.throwIfAborted()
      return await work(connection)
    } finally {
      clearInterval(stopping)
    }
  })
}

function superseded(cause?: unknown): AppError {
  return new AppError("superseded", "Another choice was computed in the meantime. Show this one again.", {
    cause,
  })
}
