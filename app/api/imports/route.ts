import { newUploadPath, startUploadedImport } from "../../../lib/jobs/import-upload"
import { startTrial } from "../../../lib/jobs/import-trial"
import { readReach } from "../../../lib/reach"
import { actorOf } from "../../../lib/store/audit-actors"
import { answering, type Called } from "../../_http/answer"
import { receiveUpload } from "../../_http/receive-upload"
import { recorded } from "../../_http/recorded"
import { assertSameOrigin } from "../../_http/same-origin"
import { site } from "../../_http/site"

export const dynamic = "force-dynamic"

/** Takes an extract in and starts its import, or a trial of it. Answers where to follow it. */
export const POST = answering("imports.manage", async (request: Request, { caller }: Called) => {
  assertSameOrigin(request.headers)
  const here = site()
  const { fields, ...upload } = await receiveUpload(request, {
    zipPath: await newUploadPath(here.dataDir),
    mostBytes: readReach().uploadLimitBytes,
  })
  const begun = { ...upload, isFull: fields.full === "on", now: new Date() }
  const isTrial = fields.trial === "on"
  if (isTrial) await recorded(caller, { action: "import.try", detail: { isFull: begun.isFull } })
  const place = isTrial
    ? `/imports/trial/${startTrial(here, begun)}`
    : `/imports/${await startUploadedImport(here, { ...begun, by: actorOf(caller) })}`
  // A form that was sent without the page's script is led on; the script is told.
  return request.headers.get("accept")?.includes("text/html")
    ? new Response(null, { status: 303, headers: { location: place } })
    : Response.json({ place }, { status: 201 })
})
