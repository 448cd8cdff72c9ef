import pg from "pg"
import { wholeClinic } from "../../lib/access/scope"
import { next } from "../../lib/outreach/case-life"
import { countDay } from "../../lib/store/case-counts"
import { listCases } from "../../lib/store/case-list"
import { casesToLookAt, waitForLook, writeLook, writePlaces } from "../../lib/store/case-looks"
import type { StoredCase } from "../../lib/store/case-rows"
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
  await benchLook({ databaseUrl, cases })
  const { app } = await ensureDatabaseRoles({ url: databaseUrl, dataDir, appUrl: undefined })
  const client = openClient(app)
  try {
    const scopes = { "the whole clinic": wholeClinic, "one site": { sites: ["North"], panelOf: null } }
    for (const [name, scope] of Object.entries(scopes)) {
      const page = (after: number) =>
        listCases(client, { scope, on: "2026-10-31", which: "to contact", after, limit: 50 })
      const narrowed = () =>
        listCases(client, {
          ...{ scope, on: "2026-10-31", which: "to contact", after: 0, limit: 50 },
          filters: { reason: "above-target", site: "North" },
        })
      const counts = () =>
        countDay(client, {
          ...{ scope, on: "2026-10-31", closedItselfSince: "2026-10-30" },
          mine: "00000000-0000-4000-8000-000000000000",
        })
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
      for (const [what, asked] of [
        ["A page narrowed by a reason and a site", narrowed],
        ["The counts of the day", counts],
      ] as const) {
        await asked()
        const spent: number[] = []
        const reference: number[] = []
        for (let run = 0; run < runs; run += 1) {
          reference.push(await timeMs(nothing))
          spent.push(await timeMs(asked))
        }
        printFigure({
          what: `${what}, ${name}`,
          ...{ value: median(spent), reference: median(reference), unit: "ms" },
          ...{ referenceWhat: "a transaction that asks nothing" },
        })
      }
    }
  } finally {
    await client.$disconnect()
  }
}

/** A look that finds every case with one reason gone and another come, without the figures it asks. */
async function benchLook({ databaseUrl, cases }: { databaseUrl: string; cases: number }): Promise<void> {
  const client = openClient(databaseUrl)
  const on = "2026-11-01"
  try {
    const reading: number[] = []
    const spent = await timeMs(() =>
      client.$transaction(
        async (transaction) => {
          await waitForLook(transaction)
          let known: StoredCase[] = []
          reading.push(await timeMs(async () => (known = await casesToLookAt(transaction))))
          const looked = known.map(({ id, patientId, case: before }) => {
            const reasons = before.reasons.map((one, place) =>
              place === 0 ? { ...one, reason: "pressure-high" } : one,
            )
            const seen = { keptFrom: before.keptFrom, lastSeenOn: null, ended: [] }
            const verdict = next(before, { kind: "data", on, reasons, ...seen })
            if (!verdict.ok) throw new Error("a look is never refused")
            return { id, patientId, before, after: verdict.case, line: verdict.line, gone: [] }
          })
          await writeLook(transaction, { cases: looked, on, now: new Date(), byName: "bench" })
          const places = looked.map(({ patientId }, index) => ({
            ...{ patientId, tier: "routine", place: looked.length - index, belowBy: null, site: "North" },
            ...{ clinician: null, language: null, nextVisitOn: null, isBookedSoon: false },
          }))
          await writePlaces(transaction, { places, on })
        },
        { timeout: 600_000 },
      ),
    )
    printFigure({
      what: `A look that changes every one of ${cases.toLocaleString("en-US")} cases`,
      ...{ value: spent, reference: median(reading), unit: "ms", referenceWhat: "reading them" },
    })
  } finally {
    await client.$disconnect()
  }
}
