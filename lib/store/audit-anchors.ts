import "server-only"
import { createHmac, timingSafeEqual } from "node:crypto"
import { closeSync, fsyncSync, openSync, readFileSync, writeSync } from "node:fs"
import path from "node:path"
import type { PrismaClient } from "./generated/client"
import { codeOf } from "./lock-file"
import { siteKey } from "./secrets"

/** What the end of the audit log was at one moment, kept outside the database. */
export type Anchor = {
  seq: bigint
  /** Of the entry with that number, hexadecimal. */
  hash: string
  /** Whether the line was written by who holds the installation's key. */
  isGenuine: boolean
}

/**
 * Adds the present end of the log to the file of anchors: its number, its hash, the time, and a code of the three under the
 * installation's key. Whoever can rewrite the whole database cannot write such a line. A log without an entry has no end.
 */
export async function anchorAudit(
  client: PrismaClient,
  { dataDir, now }: { dataDir: string; now: Date },
): Promise<void> {
  const last = await client.auditEntry.findFirst({
    orderBy: { seq: "desc" },
    select: { seq: true, hash: true },
  })
  if (!last) return
  const said = `${last.seq} ${Buffer.from(last.hash).toString("hex")} ${now.toISOString()}`
  const file = openSync(fileOf(dataDir), "a", 0o600)
  try {
    writeSync(file, `${said} ${codeOfLine(dataDir, said)}\n`)
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}

/** The anchors in the order they were written; null when there is no file of them. */
export function readAnchors(dataDir: string): Anchor[] | null {
  const text = read(fileOf(dataDir))
  if (text === null) return null
  return text
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => anchorOf(dataDir, line))
}

function anchorOf(dataDir: string, line: string): Anchor {
  const [, said = "", code = ""] = /^(\d+ [0-9a-f]{64} \S+) ([0-9a-f]{64})$/.exec(line) ?? []
  const [seq = "0", hash = ""] = said.split(" ")
  const isGenuine =
    said !== "" && timingSafeEqual(Buffer.from(code, "hex"), Buffer.from(codeOfLine(dataDir, said), "hex"))
  return { seq: BigInt(seq), hash, isGenuine }
}

function codeOfLine(dataDir: string, said: string): string {
  return createHmac("sha256", siteKey(dataDir)).update(`audit anchor ${said}`, "utf8").digest("hex")
}

function fileOf(dataDir: string): string {
  return path.join(dataDir, "audit-anchors")
}

function read(file: string): string | null {
  try {
    return readFileSync(file, "utf8")
  } catch (error) {
    if (codeOf(error) === "ENOENT") return null
    throw error
  }
}
