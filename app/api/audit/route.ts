import { auditCsv } from "../../../lib/export/audit-csv"
import { allAuditEntries } from "../../../lib/store/audit-log"
import { store } from "../../../lib/store/client"
import { filterOf } from "../../(clinic)/audit/audit-answers"
import { parseAuditView } from "../../(clinic)/audit/search-params"
import { clinicTimeZone } from "../../(clinic)/time-zone"
import { answering, type Called } from "../../_http/answer"
import { isProvenForLists, proveHref } from "../../_http/prove"
import { takeTurn } from "../../_http/rate-limit"
import { recorded } from "../../_http/recorded"

export const dynamic = "force-dynamic"

/** The entries of the audit log's screen as CSV: the same filters, all pages. */
export const GET = answering("audit.see", async (request: Request, { caller }: Called) => {
  if (!isProvenForLists(caller, new Date()))
    return new Response(null, { status: 303, headers: { location: proveHref("audit") } })
  takeTurn("exports", caller)
  const view = parseAuditView(Object.fromEntries(new URL(request.url).searchParams))
  const { from, to, actor, action, outcome } = view
  await recorded(caller, {
    ...{ action: "audit.export", detail: { from, to, actor, action, outcome } },
    ...(view.patient === null ? {} : { object: "patient", objectId: view.patient }),
  })
  const filter = filterOf(view, await clinicTimeZone())
  return new Response(streamOf(auditCsv(allAuditEntries(store(), filter))), {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": 'attachment; filename="audit-log.csv"',
      "cache-control": "no-store",
    },
  })
})

function streamOf(pieces: AsyncGenerator<string>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder()
  return new ReadableStream({
    async pull(controller) {
      const { done, value } = await pieces.next()
      if (done) controller.close()
      else controller.enqueue(encoder.encode(value))
    },
    cancel: () => void pieces.return(undefined),
  })
}
