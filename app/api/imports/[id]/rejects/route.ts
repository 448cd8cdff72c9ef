import type { Scope } from "../../../../../lib/access/scope"
import { RowNumber } from "../../../../../lib/domain/row-number"
import { AppError } from "../../../../../lib/errors"
import { csvLines } from "../../../../../lib/export/csv"
import { allRejectedRows, findImport } from "../../../../../lib/store/imports"
import { store } from "../../../../../lib/store/client"
import { answering, type Called } from "../../../../_http/answer"
import { callerScope } from "../../../../_http/ask"
import { recorded } from "../../../../_http/recorded"
import { isProvenForLists, proveHref } from "../../../../_http/prove"
import { takeTurn } from "../../../../_http/rate-limit"

export const dynamic = "force-dynamic"

const columns = ["file", "line", "column", "value", "reason", "original_line"]

/** The rejected rows of one import as CSV, with the original line and the reason, whatever their number. */
export const GET = answering(
  "imports.rows",
  async (_request: Request, { params, caller }: RouteContext<"/api/imports/[id]/rejects"> & Called) => {
    if (!isProvenForLists(caller, new Date()))
      return new Response(null, { status: 303, headers: { location: proveHref("imports") } })
    takeTurn("exports", caller)
    const id = RowNumber.safeParse((await params).id)
    const entry = id.success ? await findImport(store(), id.data) : null
    if (!entry) throw new AppError("not-found", "There is no such import.")
    await recorded(caller, { action: "rejected-rows.export", object: "import", objectId: String(entry.id) })
    return new Response(csvStream({ scope: await callerScope(), importId: entry.id }), {
      headers: {
        "content-type": "text/csv; charset=utf-8",
        "content-disposition": `attachment; filename="rejected-rows-of-import-${entry.id}.csv"`,
        "cache-control": "no-store",
      },
    })
  },
)

function csvStream(of: { scope: Scope; importId: number }): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder()
  const pages = allRejectedRows(store(), of)
  return new ReadableStream({
    start(controller) {
      controller.enqueue(encoder.encode(csvLines([columns])))
    },
    async pull(controller) {
      const { done, value } = await pages.next()
      if (done) return controller.close()
      const rows = value.map((row) => [row.file, row.line, row.column, row.value, row.message, row.original])
      controller.enqueue(encoder.encode(csvLines(rows)))
    },
    cancel: () => void pages.return(undefined),
  })
}
