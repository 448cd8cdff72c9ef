"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { actorOf } from "../../../lib/store/audit-actors"
import { checkAudit } from "../../../lib/store/audit-check"
import { store } from "../../../lib/store/client"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { site } from "../../_http/site"

/** Recomputes the whole log and says on the screen whether it is whole. */
export async function verifyNow(): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("audit.see")
  await checkAudit(store(), { by: actorOf(caller), dataDir: site().dataDir, now: new Date() })
  refresh()
}
