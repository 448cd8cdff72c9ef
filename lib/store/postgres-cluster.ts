import "server-only"
import { spawn, spawnSync } from "node:child_process"
import { randomBytes } from "node:crypto"
import {
  chownSync,
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs"
import { createServer } from "node:net"
import path from "node:path"
import { setTimeout as delay } from "node:timers/promises"
import { AppError } from "../errors"
import type { PostgresHome } from "./postgres-home"
import { isAlive, programName } from "./processes"

export const superuser = "filtrate"

/** What a running server writes about itself (postmaster.pid): lines 1, 4 and 8. */
export type RunningServer = { pid: number; port: number; isReady: boolean }

export type StartOptions = {
  logFile: string
  extraSettings: Record<string, string>
  /** Where to listen; a free port when left out. */
  port: number | undefined
}

const settings = {
  listen_addresses: "127.0.0.1",
  unix_socket_directories: "",
  max_connections: "60",
  timezone: "UTC",
  log_timezone: "UTC",
  // Details, statements and their values may quote a patient: the log says what kind of failure there was and no more.
  log_error_verbosity: "terse",
  log_min_error_statement: "panic",
  log_parameter_max_length_on_error: "0",
  shared_buffers: "256MB",
  work_mem: "32MB",
  maintenance_work_mem: "128MB",
  // Bulk loads: few, spread checkpoints, and no log for tables made and filled in one transaction.
  max_wal_size: "4GB",
  checkpoint_timeout: "15min",
  wal_compression: "on",
  wal_level: "minimal",
  max_wal_senders: "0",
  jit: "off",
  // Small containers give shared memory too little room for parallel workers.
  max_parallel_workers_per_gather: "0",
  max_parallel_maintenance_workers: "0",
}

/** Makes the cluster if there is none. It is built beside its place and moved there whole, so a crash leaves no half. */
export function initialise(home: PostgresHome, passwordFile: string): void {
  if (isInitialised(home)) return
  const folder = path.dirname(home.dataDir)
  for (const name of readdirSync(folder).filter((name) => name.startsWith("postgres.new"))) {
    rmSync(path.join(folder, name), { recursive: true, force: true })
  }
  const draft = `${home.dataDir}.new`
  const password = randomBytes(24).toString("base64url")
  const draftPassword = `${draft}-password`
  mkdirSync(draft, { mode: 0o700 })
  writeFileSync(draftPassword, password, { mode: 0o600 })
  if (home.runAs) {
    chownSync(draft, home.runAs.uid, home.runAs.gid)
    chownSync(draftPassword, home.runAs.uid, home.runAs.gid)
  }
  const flags = [`--pgdata=${draft}`, `--username=${superuser}`, `--pwfile=${draftPassword}`]
  const made = spawnSync(
    home.initdb,
    [...flags, "--auth=scram-sha-256", "--encoding=UTF8", "--locale=C", "--text-search-config=simple"],
    { ...home.runAs, cwd: folder, env: serverEnvironment(), encoding: "utf8" },
  )
  rmSync(draftPassword, { force: true })
  if (made.status !== 0) {
    rmSync(draft, { recursive: true, force: true })
    throw failure("The embedded Postgres could not be set up", `${made.error?.message ?? ""}${made.stderr}`)
  }
  writeFileSync(passwordFile, password, { mode: 0o600 })
  renameSync(draft, home.dataDir)
}

export function isInitialised(home: PostgresHome): boolean {
  return existsSync(path.join(home.dataDir, "PG_VERSION"))
}

/** Starts the server as a process of its own, which outlives this one, and waits until it takes connections. */
export async function startServer(home: PostgresHome, options: StartOptions): Promise<RunningServer> {
  const patience = Date.now() + 10_000
  for (;;) {
    const outcome = await tryStart(home, options)
    if (outcome.server) return outcome.server
    // After a kill -9 the old server's last processes may hold its shared memory for a moment.
    const isPassing = /pre-existing shared memory block|could not bind|Address already in use/.test(
      outcome.log,
    )
    if (!isPassing || Date.now() > patience) {
      throw failure(`The embedded Postgres did not start (see ${options.logFile})`, outcome.log)
    }
    await delay(250)
  }
}

async function tryStart(
  home: PostgresHome,
  options: StartOptions,
): Promise<{ server: RunningServer | null; log: string }> {
  clearStalePidFile(home)
  const port = options.port ?? (await freePort())
  const logBefore = existsSync(options.logFile) ? readFileSync(options.logFile).length : 0
  const log = openSync(options.logFile, logBefore > 10_000_000 ? "w" : "a", 0o600)
  const flags = Object.entries({ ...settings, ...options.extraSettings, port: String(port) })
  const child = spawn(
    home.postgres,
    ["-D", home.dataDir, ...flags.flatMap(([name, value]) => ["-c", `${name}=${value}`])],
    { ...home.runAs, cwd: "/", env: serverEnvironment(), detached: true, stdio: ["ignore", log, log] },
  )
  closeSync(log)
  let spawnError: Error | undefined
  child.on("error", (error) => (spawnError = error))
  child.unref()
  for (;;) {
    const server = runningServer(home)
    if (server?.isReady && server.pid === child.pid) return { server, log: "" }
    if (spawnError) return { server: null, log: spawnError.message }
    if (child.exitCode !== null || child.signalCode !== null) {
      return { server: null, log: readFileSync(options.logFile).subarray(logBefore).toString("utf8") }
    }
    await delay(20)
  }
}

/** The server that runs on this cluster, whoever started it; null when none does. */
export function runningServer(home: PostgresHome): RunningServer | null {
  try {
    const lines = readFileSync(path.join(home.dataDir, "postmaster.pid"), "utf8").split("\n")
    const pid = Number(lines[0])
    const port = Number(lines[3])
    if (!isAlive(pid) || !isPostgres(pid)) return null
    return { pid, port, isReady: lines[7]?.trim() === "ready" && port > 0 }
  } catch {
    return null
  }
}

/** Stops the server and waits until it has left its data; open connections are ended, their work rolled back. */
export async function stopServer(home: PostgresHome): Promise<void> {
  const server = runningServer(home)
  if (!server) return
  process.kill(server.pid, "SIGINT")
  const patience = Date.now() + 30_000
  while (runningServer(home)?.pid === server.pid) {
    if (Date.now() > patience) {
      process.kill(server.pid, "SIGQUIT")
      return
    }
    await delay(20)
  }
}

/** A crash leaves the file behind; after a restart of the machine its number may be another program's. */
function clearStalePidFile(home: PostgresHome): void {
  if (!runningServer(home)) rmSync(path.join(home.dataDir, "postmaster.pid"), { force: true })
}

function isPostgres(pid: number): boolean {
  return programName(pid)?.includes("postgres") ?? false
}

function serverEnvironment(): NodeJS.ProcessEnv {
  const env = { ...process.env, LC_ALL: "C", TZ: "UTC" }
  for (const name of ["PGDATA", "PGPORT", "PGOPTIONS"]) Reflect.deleteProperty(env, name)
  return env
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once("error", reject)
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address()
      probe.close(() => resolve(typeof address === "object" && address ? address.port : 0))
    })
  })
}

function failure(sentence: string, log: string): AppError {
  const isDiskFull = /No space left on device/i.test(log)
  const reason = log
    .split("\n")
    .filter((line) => /FATAL|PANIC|error|HINT/i.test(line))
    .slice(-3)
    .join("; ")
  return new AppError(
    isDiskFull ? "disk-full" : "store-unavailable",
    isDiskFull
      ? "The disk is full. Make room and start again; nothing was lost."
      : `${sentence}. ${reason || log.slice(-500)}`.trim(),
    { log: `${sentence}: ${log.slice(-4000)}` },
  )
}
