import "server-only"
import { execFileSync } from "node:child_process"
import { existsSync, readFileSync } from "node:fs"

/** Whether a process runs; one that has ended but was never collected by its parent does not count. */
export function isAlive(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false
  try {
    process.kill(pid, 0)
  } catch (error) {
    // EPERM: it runs, under another user.
    if (!(error instanceof Error && "code" in error && error.code === "EPERM")) return false
  }
  return procStat(pid)?.state !== "Z"
}

/** A text that tells two processes apart that were given the same number; null where the system does not say. */
export function startedAt(pid: number): string | null {
  return procStat(pid)?.startTicks ?? null
}

/** The program's name as the system lists it, or null. */
export function programName(pid: number): string | null {
  if (existsSync("/proc/self/stat")) return procStat(pid)?.name ?? null
  try {
    return execFileSync("ps", ["-o", "comm=", "-p", String(pid)], { encoding: "utf8" }).trim()
  } catch {
    return null
  }
}

/** Fields of /proc/PID/stat: the name stands in brackets and may hold anything, the rest follows the last bracket. */
function procStat(pid: number): { name: string; state: string; startTicks: string } | null {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, "utf8")
    const rest = text.slice(text.lastIndexOf(")") + 2).split(" ")
    const name = text.slice(text.indexOf("(") + 1, text.lastIndexOf(")"))
    return { name, state: rest[0] ?? "", startTicks: rest[19] ?? "" }
  } catch {
    return null
  }
}
