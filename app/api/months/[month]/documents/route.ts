import { isWhole } from "../../../../../lib/access/scope"
import { AppError } from "../../../../../lib/errors"
import { askMonthReport } from "../../../../../lib/report/ask-month-report"
import { askReportPeople } from "../../../../../lib/report/ask-report-people"
import { canHoldPeople, isDocumentFormat, monthDocument } from "../../../../../lib/report/month-documents"
import { store } from "../../../../../lib/store/client"
import { monthRecord } from "../../../../../lib/store/month-record"
import { answering, type Called } from "../../../../_http/answer"
import { ask, callerScope, snapshotMeta } from "../../../../_http/ask"
import { isProvenForLists, proveHref } from "../../../../_http/prove"
import { takeTurn } from "../../../../_http/rate-limit"
import { recorded } from "../../../../_http/recorded"
import { requireUser } from "../../../../_http/require-user"

export const dynamic = "force-dynamic"

/** A month as a document: `format` says which, `people=yes` asks for lists of people beside the counts. */
export const GET = answering(
  "reports.export",
  async (request: Request, { params, caller }: RouteContext<"/api/months/[month]/documents"> & Called) => {
    const { month } = await params
    const search = new URL(request.url).searchParams
    const format = search.get("format")
    const isOfPeople = search.get("people") === "yes"
    if (!isDocumentFormat(format)) throw new AppError("bad-request", "There is no document of this kind.")
    if (isOfPeople && !canHoldPeople(format))
      throw new AppError("bad-request", "This kind of document holds counts alone.")
    if (isOfPeople) await requireUser("people.export")
    if (isOfPeople && !isProvenForLists(caller, new Date()))
      return new Response(null, { status: 303, headers: { location: proveHref("month") } })
    const snapshot = await snapshotMeta()
    const asOf = snapshot.asOfs.find((day) => day.slice(0, 7) === month)
    if (!asOf) throw new AppError("not-found", "There are no figures of this month.")
    takeTurn("exports", caller)
    const isWholeClinic = isWhole(await callerScope())
    const report = await askMonthReport(ask, {
      snapshot: { ...snapshot, isWholeClinic },
      asOf,
      record: await monthRecord(store(), asOf),
    })
    const people = isOfPeople ? await askReportPeople(ask, asOf) : null
    const document = await monthDocument(report, { format, people })
    await recorded(caller, {
      ...{ action: "report.export", object: "month", objectId: month },
      detail: { on: asOf, format },
      ...(people === null ? {} : { people: people.people.map((one) => one.public_id) }),
    })
    return new Response(Buffer.from(document.bytes), {
      headers: {
        "content-type": document.mediaType,
        "content-disposition": `attachment; filename="${document.fileName}"`,
        "cache-control": "no-store",
      },
    })
  },
)
