import type { Scope } from "../../../lib/access/scope"
import { callerScope } from "../../_http/ask"
import type { site } from "../../_http/site"
import { listHeldFacts, listUnlistedLoinc } from "../../../lib/store/held-facts"

export const heldPerPage = 50

type Client = ReturnType<typeof site>["client"]
type WaitingRows = Awaited<ReturnType<typeof askWaitingRows>>

declare global {
  var filtrateWaitingRows: { asked: string; rows: WaitingRows } | undefined
}

/**
 * The rows that wait for a person: held facts and codes on no list. They are sought through every ledger, and change only
 * when an import ends or a person discards one, so they are kept in between.
 */
export async function waitingRows(client: Client): Promise<WaitingRows> {
  const latest = await client.import.findFirst({
    where: { finishedAt: { not: null } },
    orderBy: [{ finishedAt: "desc" }, { id: "desc" }],
    select: { id: true, finishedAt: true, status: true },
  })
  const scope = await callerScope()
  const asked = JSON.stringify([latest, scope])
  const kept = globalThis.filtrateWaitingRows
  if (kept?.asked === asked) return kept.rows
  const rows = await askWaitingRows(client, scope)
  if (rows.held !== null && rows.loinc !== null) globalThis.filtrateWaitingRows = { asked, rows }
  return rows
}

/** To be called when a person has discarded a row. */
export function forgetWaitingRows(): void {
  globalThis.filtrateWaitingRows = undefined
}

async function askWaitingRows(client: Client, scope: Scope) {
  const [held, loinc] = await Promise.all([
    listHeldFacts(client, { scope, take: heldPerPage, skip: 0 }),
    listUnlistedLoinc(client, scope),
  ])
  return { held, loinc }
}
