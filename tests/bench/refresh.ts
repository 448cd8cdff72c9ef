import { PassThrough } from "node:stream"
import { pipeline } from "node:stream/promises"
import pg from "pg"
import { to as copyTo } from "pg-copy-streams"
import { rawTables } from "../../lib/engine/raw-tables"
import { refresh } from "../../lib/jobs/refresh"
import { median, printFigure, timeMs } from "./report"

/**
 * A refresh of everything for 36 months, against a bare COPY of the same ledgers to nowhere, in turn.
 * The store must hold the clinic already.
 */
export async function benchRefresh(options: {
  databaseUrl: string
  dataDir: string
  runs: number
}): Promise<void> {
  const facts = await factCount(options.databaseUrl)
  const bare: number[] = []
  const full: number[] = []
  for (let run = 0; run < options.runs; run += 1) {
    bare.push(await timeMs(() => bareCopy(options.databaseUrl)))
    full.push(await timeMs(() => refresh(options)))
  }
  printFigure({
    what: `Refresh of ${facts.toLocaleString("en")} facts, 37 as-of dates`,
    value: median(full),
    reference: median(bare),
    referenceWhat: "bare COPY TO STDOUT of the same tables",
    unit: "ms",
    limit: "within 6 is asked",
  })
}

const ledgers = rawTables.map((table) => table.ledger.split(" ")[0] ?? "")

async function bareCopy(databaseUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    for (const ledger of ledgers) {
      const sink = new PassThrough().resume()
      await pipeline(client.query(copyTo(`copy ${ledger} to stdout (format csv)`)), sink)
    }
  } finally {
    await client.end()
  }
}

async function factCount(databaseUrl: string): Promise<number> {
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    let facts = 0
    for (const ledger of ledgers) {
      const result = await client.query(`select count(*)::int as n from ${ledger} where ended_at is null`)
      facts += Number(result.rows[0].n)
    }
    return facts
  } finally {
    await client.end()
  }
}
