import { z } from "zod"
import { wholeList } from "../../../(clinic)/outreach/outreach-answers"
import { outreachLines } from "../../../(clinic)/outreach/outreach-lines"
import { listFormats, parseOutreachView } from "../../../(clinic)/outreach/search-params"
import { AppError } from "../../../../lib/errors"
import { outreachCsv, outreachXlsx } from "../../../../lib/export/outreach-files"
import { answering, type Called } from "../../../_http/answer"
import { snapshotMeta } from "../../../_http/ask"
import { isProvenForLists, proveHref } from "../../../_http/prove"
import { takeTurn } from "../../../_http/rate-limit"
import { recorded } from "../../../_http/recorded"

export const dynamic = "force-dynamic"

const mediaTypes = {
  csv: "text/csv; charset=utf-8",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
} as const

/** The whole list of people to contact that the screen of the same address shows, as a file; nobody who is kept from contact. */
export const GET = answering("people.export", async (request: Request, { caller }: Called) => {
  const now = new Date()
  const search = Object.fromEntries(new URL(request.url).searchParams)
  const format = z.enum(listFormats).safeParse(search.format)
  if (!format.success) throw new AppError("bad-request", "There is no file of this kind.")
  if (!isProvenForLists(caller, now))
    return new Response(null, { status: 303, headers: { location: proveHref("outreach") } })
  takeTurn("exports", caller)
  const snapshot = await snapshotMeta()
  const { on, rows } = await wholeList({ snapshot, caller, view: parseOutreachView(search), now })
  const lines = outreachLines(rows, snapshot.settings)
  const file = format.data === "csv" ? outreachCsv(lines) : Buffer.from(await outreachXlsx(lines))
  await recorded(caller, {
    ...{ action: "cases.export", object: "cases", people: rows.map(({ one }) => one.public_id) },
    detail: { on, format: format.data },
  })
  return new Response(file, {
    headers: {
      "content-type": mediaTypes[format.data],
      "content-disposition": `attachment; filename="people-to-contact-${on}.${format.data}"`,
      "cache-control": "no-store",
    },
  })
})
