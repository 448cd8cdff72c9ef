import "server-only"
import { appendFileSync, createReadStream, mkdirSync, rmSync } from "node:fs"
import path from "node:path"
import { Readable } from "node:stream"
import { pipeline } from "node:stream/promises"
import type pg from "pg"
import { from as copyFrom } from "pg-copy-streams"

export type CopySpool = {
  add: (fields: readonly (string | number | boolean | null)[]) => void
  /** How many rows are waiting. */
  count: () => number
  /** Writes all rows into a table, in the order of the columns named. */
  copyInto: (client: pg.Client, target: string) => Promise<void>
  clear: () => void
}

/** Removes what an import that was killed has left behind; to be asked by whoever has the turn. */
export function clearSpools(folder: string): void {
  rmSync(folder, { recursive: true, force: true })
}

const mostInMemory = 1_000_000

/**
 * Keeps rows until the connection is free to take them: a connection that is receiving one table cannot take another.
 * A megabyte stays in memory, more goes to a file that only its owner can read.
 */
export function createCopySpool(file: string): CopySpool {
  let waiting: string[] = []
  let waitingLength = 0
  let rows = 0
  let isOnDisk = false

  function spill(): void {
    mkdirSync(path.dirname(file), { recursive: true, mode: 0o700 })
    appendFileSync(file, waiting.join(""), { mode: 0o600 })
    isOnDisk = true
    waiting = []
    waitingLength = 0
  }

  function clear(): void {
    if (isOnDisk) rmSync(file, { force: true })
    waiting = []
    waitingLength = 0
    rows = 0
    isOnDisk = false
  }

  return {
    add(fields) {
      const line = `${fields.map(copyText).join("\t")}\n`
      waiting.push(line)
      waitingLength += line.length
      rows += 1
      if (waitingLength > mostInMemory) spill()
    },
    count: () => rows,
    async copyInto(client, target) {
      if (rows === 0) return
      if (isOnDisk) spill()
      const text = isOnDisk ? createReadStream(file) : Readable.from([Buffer.from(waiting.join(""))])
      await pipeline(text, client.query(copyFrom(`copy ${target} from stdin`)))
    },
    clear,
  }
}

const escapes: Readonly<Record<string, string>> = {
  "\\": "\\\\",
  "\t": "\\t",
  "\n": "\\n",
  "\r": "\\r",
  // Postgres keeps no NUL; its picture stands in.
  "\0": "\u2400",
}

/** A field in the text format of COPY. */
function copyText(value: string | number | boolean | null): string {
  if (value === null) return "\\N"
  if (typeof value !== "string") return String(value)
  return value.replace(/[\\\t\n\r\0]/g, (character) => escapes[character] ?? character)
}
