import { existsSync, readFileSync } from "node:fs"
import path from "node:path"
import { isAlive } from "../../lib/store/processes"

/** The processes of a data folder: the command that runs the site, the site itself, and the database server. */
export function processesOf(dataDir: string): { command: number; site: number; database: number } {
  const command = Number(JSON.parse(readFileSync(path.join(dataDir, "site.json"), "utf8")).pid)
  const children = isAlive(command) ? childrenOf(command) : []
  const database = databaseProcess(dataDir) ?? 0
  const site = children.find((pid) => nameOf(pid).startsWith("next")) ?? 0
  return { command, site, database }
}

/** The embedded database server that runs on a data folder, or null. */
export function databaseProcess(dataDir: string): number | null {
  const note = path.join(dataDir, "postgres", "postmaster.pid")
  if (!existsSync(note)) return null
  const pid = Number(readFileSync(note, "utf8").split("\n")[0])
  return isAlive(pid) ? pid : null
}

function childrenOf(pid: number): number[] {
  return readFileSync(`/proc/${pid}/task/${pid}/children`, "utf8").trim().split(" ").map(Number)
}

function nameOf(pid: number): string {
  return readFileSync(`/proc/${pid}/comm`, "utf8").trim()
}

/** Kills whatever a failed test may have left running on a data folder. */
export function killLeftovers(dataDir: string): void {
  const pids = existsSync(path.join(dataDir, "site.json")) ? Object.values(processesOf(dataDir)) : []
  for (const pid of [...pids, databaseProcess(dataDir) ?? 0]) if (isAlive(pid)) process.kill(pid, "SIGKILL")
}
