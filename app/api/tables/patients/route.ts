import { tableFromIPC } from "apache-arrow"
import { askAsArrow, snapshotMeta } from "../../../_http/ask"
import { patientTable } from "../../../../lib/questions/patient-table"
import { chooseMonth } from "../../../(clinic)/months"
import { parseMonthView } from "../../../(clinic)/search-params"
import { answering, type Called } from "../../../_http/answer"
import { recordedOnce } from "../../../_http/recorded"
import { takeTurn } from "../../../_http/rate-limit"

/** The whole panel of one month as an Arrow IPC stream. */
export const GET = answering("people.see", async (request: Request, { caller }: Called) => {
  takeTurn("tables", caller)
  const { month } = parseMonthView(Object.fromEntries(new URL(request.url).searchParams))
  const { asOf } = chooseMonth(await snapshotMeta(), month)
  const stream = await askAsArrow(patientTable, { as_of: asOf })
  const people = Array.from(tableFromIPC(stream).getChild("public_id") ?? [], String)
  await recordedOnce(caller, { action: "patients.list", object: "panel", people, detail: { on: asOf } })
  return new Response(new Uint8Array(stream), {
    headers: { "content-type": "application/vnd.apache.arrow.stream", "cache-control": "no-store" },
  })
})
