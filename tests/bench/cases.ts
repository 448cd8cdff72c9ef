import pg from "pg"
import { wholeClinic } from "../../lib/access/scope"
import { listCases } from "../../lib/store/case-list"
import { openClient } from "../../lib/store/client"
import { ensureDatabaseRoles } from "../../lib/store/database-roles"
import { inScope } from "../../lib/store/in-scope"
import { fillWithCases } from "../helpers/many-cases"
import { median, printFigure, timeMs } from "./report"

/** Server time of a page of 50 out of many open cases, as the site's role of the database, against a transaction that asks nothing. */
export async function benchCases(options: {
  databaseUrl: string
  dataDir: string
  cases: number
  runs: number
}): Promise<void> {
  const { databaseUrl, dataDir, cases, runs } = options
  const owner = new pg.Client({ connectionString: databaseUrl })
  await owner.connect()
  await fillWithCases(owner, cases)
  await owner.end()
  const { app } = await ensureDatabaseRoles({ url: databaseUrl, dataDir, appUrl: undefined })
  const client = openClient(app)
  try {
    const scopes = { "the whole clinic": wholeClinic, "one site": { sites: ["North"], panelOf: null } }
    for (const [name, scope] of Object.entries(scopes)) {
      const page = (after: number) =>
        listCases(client, { scope, on: "2026-10-31", which: "to contact", after, limit: 50 })
      const nothing = () => inScope(client, scope, (transaction) => transaction.$queryRaw`select 1`)
      await page(0)
      for (const [where, after] of [
        ["first", 0],
        ["middle", Math.floor(cases / 2)],
        ["last", cases - 100],
      ] as const) {
        const spent: number[] = []
        const reference: number[] = []
        for (let run = 0; run < runs; run += 1) {
          reference.push(await timeMs(nothing))
          spent.push(await timeMs(() => page(after)))
        }
        printFigure({
          what: `A page of 50 of ${cases.toLocaleString("en-US")} cases, ${where}, ${name}`,
          ...{ value: median(spent), reference: median(reference), unit: "ms" },
          ...{ referenceWhat: "a transaction that asks nothing", limit: "under 100 ms is asked" },
        })
      }
    }
  } finally {
    await client.$disconnect()
  }
}
