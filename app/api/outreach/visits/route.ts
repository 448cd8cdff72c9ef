import { parseVisitsView } from "../../../(clinic)/outreach/visits/search-params"
import { visitFile } from "../../../(clinic)/outreach/visits/visit-file"
import { visitsAnswers } from "../../../(clinic)/outreach/visits/visits-answers"
import { answering, type Called } from "../../../_http/answer"
import { snapshotMeta } from "../../../_http/ask"
import { isProvenForLists, proveHref } from "../../../_http/prove"
import { takeTurn } from "../../../_http/rate-limit"
import { recorded } from "../../../_http/recorded"

export const dynamic = "force-dynamic"

/** The visit lists of a day as CSV: those the screen of the same address shows. */
export const GET = answering("people.export", async (request: Request, { caller }: Called) => {
  const now = new Date()
  if (!isProvenForLists(caller, now))
    return new Response(null, { status: 303, headers: { location: proveHref("visits") } })
  takeTurn("exports", caller)
  const view = parseVisitsView(Object.fromEntries(new URL(request.url).searchParams))
  const { settings } = await snapshotMeta()
  const { on, sheets } = await visitsAnswers({ view, now })
  const people = new Set(sheets.flatMap(({ rows }) => rows.map(({ visit }) => visit.public_id)))
  await recorded(caller, { action: "visits.export", people: [...people], detail: { on } })
  return new Response(visitFile({ on, sheets, settings }), {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="visits-${on}.csv"`,
      "cache-control": "no-store",
    },
  })
})
