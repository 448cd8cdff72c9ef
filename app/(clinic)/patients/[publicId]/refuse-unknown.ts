import { notFound } from "next/navigation"
import type { Caller } from "../../../../lib/access/caller"
import { recordedOnce } from "../../../_http/recorded"

/** Nobody has the id, or nobody whom the account sees: the same answer for both, and an entry in the audit log. */
export async function refuseUnknown(caller: Caller, publicId: string | null): Promise<never> {
  await recordedOnce(caller, {
    ...{ action: "access.refuse", outcome: "not found", object: "patient" },
    ...(publicId === null ? {} : { objectId: publicId }),
  })
  notFound()
}
