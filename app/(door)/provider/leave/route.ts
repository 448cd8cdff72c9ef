import { flowLastsMs, leaveForProvider } from "../../../../lib/auth/provider"
import { AppError } from "../../../../lib/errors"
import { siteKey } from "../../../../lib/store/secrets"
import { answeringAnyone } from "../../../_http/answer"
import { requireProvider, returnAddress } from "../../../_http/provider"
import { placeOf } from "../../../_http/prove"
import { currentCaller } from "../../../_http/require-user"
import { site } from "../../../_http/site"
import { siteOrigin } from "../../../_http/site-origin"
import { writeStepCookie } from "../../../_http/step-cookie"

/** Sends a browser to the clinic's provider; `to` asks someone who is signed in to prove there who they are. */
export const GET = answeringAnyone(async (request) => {
  const settings = requireProvider()
  const { search, searchParams } = new URL(request.url)
  // Under another name of this machine the cookie would not come back with the answer.
  if (request.headers.get("host") !== new URL(siteOrigin()).host)
    return Response.redirect(`${siteOrigin()}/provider/leave${search}`, 303)
  const to = searchParams.get("to")
  const caller = to === null ? null : await currentCaller()
  const proof = caller && { userId: caller.userId, to: placeOf(to) }
  const leaving = { redirectUri: returnAddress(), key: siteKey(site().dataDir), now: new Date(), proof }
  try {
    const { address, sealed } = await leaveForProvider(settings, leaving)
    await writeStepCookie("provider", { value: sealed, lastsMs: flowLastsMs })
    return Response.redirect(address, 303)
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    return Response.redirect(`${siteOrigin()}/sign-in?provider=unreachable`, 303)
  }
})
