import "server-only"
import { existsSync, readFileSync, statSync } from "node:fs"
import { mkdir, open, readdir, rename, rm } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance } from "@duckdb/node-api"
import { z } from "zod"
import { AppError } from "../errors"

const Pointer = z.object({ file: z.string() })

export function snapshotDir(dataDir: string): string {
  return path.join(dataDir, "snapshots")
}

/** The file readers use now. Throws AppError("no-snapshot") before the first build. */
export function requireSnapshot(dataDir: string): string {
  const file = currentSnapshot(dataDir)
  if (file) return file
  throw new AppError(
    "no-snapshot",
    "There is no snapshot yet. Run `npx filtrate refresh`, or import an extract.",
  )
}

/** The file readers use now, or null before the first build. */
export function currentSnapshot(dataDir: string): string | null {
  const pointer = path.join(snapshotDir(dataDir), "current.json")
  if (!existsSync(pointer)) return null
  const file = path.join(snapshotDir(dataDir), Pointer.parse(JSON.parse(readFileSync(pointer, "utf8"))).file)
  return existsSync(file) ? file : null
}

/**
 * Makes a finished file the one that readers use: it is made durable, renamed, and then the pointer is swapped in one step.
 * Files no reader is told of any more are removed, except the one before (a reader may just be opening it).
 */
export async function publishSnapshot(options: {
  dataDir: string
  builtFile: string
  name: string
}): Promise<void> {
  const dir = snapshotDir(options.dataDir)
  const before = currentSnapshot(options.dataDir)
  await makeDurable(options.builtFile)
  await rename(options.builtFile, path.join(dir, options.name))
  const pointer = path.join(dir, `current.json.${process.pid}`)
  const handle = await open(pointer, "w")
  await handle.writeFile(JSON.stringify({ file: options.name }))
  await handle.sync()
  await handle.close()
  await rename(pointer, path.join(dir, "current.json"))
  await makeDurable(dir)
  const keep = new Set([options.name, before ? path.basename(before) : ""])
  for (const name of await readdir(dir))
    if (/^snapshot-.*\.duckdb$/.test(name) && !keep.has(name)) await rm(path.join(dir, name), { force: true })
}

/** Removes every snapshot but the one readers use now. */
export async function removeOlderSnapshots(dataDir: string): Promise<void> {
  const dir = snapshotDir(dataDir)
  const current = path.basename(requireSnapshot(dataDir))
  for (const name of await readdir(dir))
    if (/^snapshot-.*\.duckdb/.test(name) && name !== current) await rm(path.join(dir, name), { force: true })
}

/** Removes what a build that was killed left behind. */
export async function sweepBuilds(dataDir: string): Promise<void> {
  const dir = snapshotDir(dataDir)
  await mkdir(dir, { recursive: true })
  for (const name of await readdir(dir)) {
    const owner = /^(?:build-|current\.json\.)(\d+)/.exec(name)?.[1]
    if (owner && !isAlive(Number(owner))) await rm(path.join(dir, name), { recursive: true, force: true })
  }
}

type OpenSnapshot = { file: string; inode: number; instance: DuckDBInstance }

declare global {
  var filtrateSnapshot: Promise<OpenSnapshot> | undefined
}

/** The current snapshot, read-only; opened once per process and again when a new one has been swapped in. */
export async function openSnapshot(dataDir: string): Promise<DuckDBInstance> {
  const file = requireSnapshot(dataDir)
  const inode = statSync(file).ino
  const opened = await globalThis.filtrateSnapshot?.catch(() => undefined)
  if (opened && opened.file === file && opened.inode === inode) return opened.instance
  globalThis.filtrateSnapshot = openFile(file, inode)
  return (await globalThis.filtrateSnapshot).instance
}

async function openFile(file: string, inode: number): Promise<OpenSnapshot> {
  const instance = await DuckDBInstance.create(file, {
    access_mode: "READ_ONLY",
    threads: "2",
    memory_limit: "512MB",
  })
  return { file, inode, instance }
}

async function makeDurable(target: string): Promise<void> {
  const handle = await open(target, "r")
  await handle.sync()
  await handle.close()
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch {
    return false
  }
}
