import { newUploadPath, startUploadedImport } from "../../../lib/jobs/import-upload"
import { startTrial } from "../../../lib/jobs/import-trial"
import { readReach } from "../../../lib/reach"
import { answering } from "../../_http/answer"
import { receiveUpload } from "../../_http/receive-upload"
import { assertSameOrigin } from "../../_http/same-origin"
import { site } from "../../_http/site"

export const dynamic = "force-dynamic"

/** Takes an extract in and starts its import, or a trial of it. Answers where to follow it. */
export const POST = answering("imports.manage", async (request: Request) => {
  assertSameOrigin(request.headers)
  const here = site()
  const { fields, ...upload } = await receiveUpload(request, {
    zipPath: await newUploadPath(here.dataDir),
    mostBytes: readReach().uploadLimitBytes,
  })
  const begun = { ...upload, isFull: fields.full === "on", now: new Date() }
  const place =
    fields.trial === "on"
      ? `/imports/trial/${startTrial(here, begun)}`
      : `/imports/${await startUploadedImport(here, begun)}`
  // A form that was sent without the page's script is led on; the script is told.
  return request.headers.get("accept")?.includes("text/html")
    ? new Response(null, { status: 303, headers: { location: place } })
    : Response.json({ place }, { status: 201 })
})
