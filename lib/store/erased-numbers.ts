import "server-only"
import { createHmac } from "node:crypto"
import type pg from "pg"
import { z } from "zod"
import { siteKey } from "./secrets"

/** A number as it is remembered after its person was erased: without the installation's key nobody can tell whose it was. */
export function numberHash(key: Buffer, patientId: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(createHmac("sha256", key).update(`erased number\0${patientId}`, "utf8").digest())
}

/** Tells the numbers that are not to be taken in again; null while nobody was erased, so that an import asks nothing. */
export async function readErasedNumbers(
  client: pg.Client,
  dataDir: string,
): Promise<((patientId: string) => boolean) | null> {
  const result = await client.query("select encode(number_hash, 'hex') as hash from erased_numbers")
  const rows = z.array(z.object({ hash: z.string() })).parse(result.rows)
  if (rows.length === 0) return null
  const hashes = new Set(rows.map((row) => row.hash))
  const key = siteKey(dataDir)
  const known = new Map<string, boolean>()
  return (patientId) => {
    const before = known.get(patientId)
    if (before !== undefined) return before
    const isErased = hashes.has(Buffer.from(numberHash(key, patientId)).toString("hex"))
    if (known.size < mostKnown) known.set(patientId, isErased)
    return isErased
  }
}

/** As many numbers as are remembered while one import goes on. */
const mostKnown = 200_000
