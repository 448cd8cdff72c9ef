import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import path from "node:path"
import { setTimeout as delay } from "node:timers/promises"
import { z } from "zod"
import { AppError } from "../errors"
import { withLockFile } from "../store/lock-file"
import { isAlive, startedAt } from "../store/processes"

const Holder = z.object({ pid: z.number(), started: z.string().nullable(), port: z.number() })

/**
 * Makes this process the one site of a data folder, and answers how to give that up, and whether an earlier one never did.
 * One that is just ending (its terminal was closed, npm was killed) gets a few seconds to be gone.
 */
export async function holdSite(
  dataDir: string,
  port: number,
): Promise<{ release: () => void; isAfterCrash: boolean }> {
  const file = path.join(dataDir, "site.json")
  const own = JSON.stringify({ pid: process.pid, started: startedAt(process.pid), port })
  const patience = Date.now() + 5000
  const isAfterCrash = existsSync(file)
  for (;;) {
    const other = await withLockFile(`${file}.lock`, () => {
      const holder = readHolder(file)
      if (holder === null) writeFileSync(file, own, { mode: 0o600 })
      return Promise.resolve(holder)
    })
    if (other === null) break
    if (Date.now() > patience)
      throw new AppError(
        "port-taken",
        `Filtrate already runs on this data at http://localhost:${other.port} (process ${other.pid}). Stop that one first, or name another folder with FILTRATE_DATA.`,
      )
    await delay(100)
  }
  return { release: () => rmSync(file, { force: true }), isAfterCrash }
}

function readHolder(file: string): z.infer<typeof Holder> | null {
  try {
    const holder = Holder.parse(JSON.parse(readFileSync(file, "utf8")))
    return isAlive(holder.pid) && startedAt(holder.pid) === holder.started ? holder : null
  } catch {
    return null
  }
}
