import { store } from "../../../lib/store/client"
import { findCaller } from "../../../lib/store/sessions"
import { answering } from "../../_http/answer"
import { assertSameOrigin } from "../../_http/same-origin"
import { readSessionCookie } from "../../_http/session-cookie"

/** A sign of life of the person: keeps the session from becoming idle, and no longer than its end. */
export const POST = answering("account.own", async (request) => {
  assertSameOrigin(request.headers)
  const token = (await readSessionCookie()) ?? ""
  await findCaller(store(), { token, now: new Date(), isActive: true })
  return Response.json({ isSignedIn: true }, { headers: { "cache-control": "no-store" } })
})
