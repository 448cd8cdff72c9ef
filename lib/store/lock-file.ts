import "server-only"
import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs"
import { setTimeout as delay } from "node:timers/promises"
import { isAlive, startedAt } from "./processes"

/**
 * Runs `work` while this process alone holds the lock file, waiting for another holder to finish.
 * A holder that died (kill -9, power cut) does not block: its lock is taken over.
 */
export async function withLockFile<T>(file: string, work: () => Promise<T>): Promise<T> {
  const own = `${process.pid} ${startedAt(process.pid) ?? ""}`
  while (!tryLock(file, own)) {
    clearIfStale(file)
    await delay(50)
  }
  try {
    return await work()
  } finally {
    if (read(file) === own) rmSync(file, { force: true })
  }
}

/** Writes the whole lock beside its place, then links it there: nobody ever reads half of one. */
function tryLock(file: string, own: string): boolean {
  const draft = `${file}.${process.pid}`
  try {
    writeFileSync(draft, own, { mode: 0o600 })
    linkSync(draft, file)
    return true
  } catch (error) {
    if (codeOf(error) !== "EEXIST") throw error
    return false
  } finally {
    rmSync(draft, { force: true })
  }
}

function clearIfStale(file: string): void {
  const seen = read(file)
  if (seen === null || isHeld(seen)) return
  const aside = `${file}.stale.${process.pid}`
  try {
    renameSync(file, aside)
  } catch {
    return
  }
  // Another process may have taken the lock over between the look and the move: give it back.
  if (read(aside) !== seen) {
    try {
      linkSync(aside, file)
    } catch {
      // A third holder has it by now.
    }
  }
  rmSync(aside, { force: true })
}

function isHeld(content: string): boolean {
  const [pid = "", started = ""] = content.split(" ")
  return isAlive(Number(pid)) && (started === "" || started === (startedAt(Number(pid)) ?? ""))
}

function read(file: string): string | null {
  try {
    return readFileSync(file, "utf8")
  } catch {
    return null
  }
}

export function codeOf(error: unknown): string | undefined {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : undefined
}
