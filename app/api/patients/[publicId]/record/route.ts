import { z } from "zod"
import { TypedText } from "../../../../../lib/domain/typed-text"
import { AppError } from "../../../../../lib/errors"
import { countFacts, personZip } from "../../../../../lib/export/person-zip"
import { answering, type Called } from "../../../../_http/answer"
import { isProven } from "../../../../_http/prove"
import { takeTurn } from "../../../../_http/rate-limit"
import { recorded } from "../../../../_http/recorded"
import { assertSameOrigin } from "../../../../_http/same-origin"
import { readRecord } from "../../../../(clinic)/patients/[publicId]/record/record-answers"

export const dynamic = "force-dynamic"

const Purpose = TypedText.trim().min(10).max(300)
const PublicId = z.uuid()

/** Everything that is held about one person, as a zip file; who takes it has just shown who they are, and says why. */
export const POST = answering(
  "records.manage",
  async (request: Request, { params, caller }: RouteContext<"/api/patients/[publicId]/record"> & Called) => {
    assertSameOrigin(request.headers)
    const purpose = Purpose.safeParse((await formOf(request)).get("purpose"))
    if (!purpose.success)
      throw new AppError(
        "bad-request",
        "To whom the record goes and why is needed, in at least ten characters.",
      )
    const publicId = PublicId.safeParse((await params).publicId)
    if (!publicId.success) throw new AppError("not-found", "There is no such patient.")
    if (!isProven(caller, new Date()))
      throw new AppError(
        "not-permitted",
        "The last proof of identity is too old. Load this page again to renew it.",
      )
    takeTurn("exports", caller)
    const record = await readRecord(publicId.data)
    if (!record) throw new AppError("not-found", "There is no such patient.")
    const { people, files, histories } = record
    const detail = countFacts(files)
    const bytes = await personZip(files, histories)
    await recorded(caller, { action: "record.export", purpose: purpose.data, people, detail })
    return new Response(new Uint8Array(bytes), {
      headers: {
        "content-type": "application/zip",
        "content-disposition": `attachment; filename="record-${publicId.data}.zip"`,
        "cache-control": "no-store",
      },
    })
  },
)

async function formOf(request: Request): Promise<FormData> {
  try {
    return await request.formData()
  } catch (cause) {
    throw new AppError("bad-request", "No form was sent.", { cause })
  }
}
