import "server-only"
import { once } from "node:events"
import type pg from "pg"
import { from as copyFrom } from "pg-copy-streams"
import { deferReferences, dropIndexInForce } from "./bulk-checks"
import { mergeDirect, mergeStaged, type MergeCounts, type MergeRequest, type Merging } from "./bulk-merge"
import { copyColumns, createRowEncoder, type CopyRow } from "./copy-rows"

/** Bytes that may wait for the server, so that it does not wait for us while we read on. */
const mostWaiting = 4_000_000

export type Loading = {
  add: (row: CopyRow) => void
  /** Sends what has gathered, and waits while the server is behind. */
  drain: () => Promise<void>
  /** Ends the loading and settles what becomes of the rows. */
  merge: (request: MergeRequest) => Promise<MergeCounts>
}

/**
 * Starts to load the good rows of one file, in the transaction that `client` is in: into a staging table, or, with
 * `isLarge`, straight into the ledger while that has no row.
 */
export async function startLoading(merging: Merging, options: { isLarge: boolean }): Promise<Loading> {
  const { client, ledger, importId, knownAt, canDefer } = merging
  const isDirect = options.isLarge && canDefer && (await isEmpty(client, ledger.table))
  const indexInForce = isDirect ? await openLedger(client, ledger.table) : null
  if (!isDirect)
    await client.query(`create temp table staged (like ${ledger.table} including defaults) on commit drop`)

  const target = `${isDirect ? ledger.table : "staged"} (${copyColumns(ledger).join(", ")})`
  const copy = client.query(copyFrom(`copy ${target} from stdin (format binary)`))
  // A failure between two calls shows at the next one.
  let failure: Error | null = null
  copy.on("error", (error: Error) => (failure = error))
  const encoder = createRowEncoder(ledger, { importId, knownAt })

  return {
    add: encoder.add,
    async drain() {
      if (failure) throw failure
      const bytes = encoder.take()
      if (!bytes) return
      const isBehind = !copy.write(bytes) && copy.writableLength > mostWaiting
      if (isBehind) await once(copy, "drain")
    },
    async merge(request) {
      if (failure) throw failure
      copy.end(encoder.end())
      await once(copy, "finish")
      return indexInForce === null
        ? mergeStaged(merging, request)
        : mergeDirect(merging, { indexInForce, loadedRows: copy.rowCount }, request)
    },
  }
}

/** Makes an empty ledger fast to fill; Postgres then writes no log of it but the table itself, at the end. */
async function openLedger(client: pg.Client, table: string): Promise<string> {
  await client.query(`truncate ${table}`)
  const indexInForce = await dropIndexInForce(client, table)
  await deferReferences(client)
  return indexInForce
}

async function isEmpty(client: pg.Client, table: string): Promise<boolean> {
  const result = await client.query(`select from ${table} limit 1`)
  return result.rowCount === 0
}
