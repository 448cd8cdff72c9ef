import { comeBackFromProvider, type Identity } from "../../../../lib/auth/provider"
import {
  proveThroughProvider,
  recordFailedReturn,
  signInThroughProvider,
} from "../../../../lib/auth/provider-sign-in"
import type { ProviderSettings } from "../../../../lib/auth/provider-settings"
import { AppError } from "../../../../lib/errors"
import { store } from "../../../../lib/store/client"
import { siteKey } from "../../../../lib/store/secrets"
import { endSession } from "../../../../lib/store/sessions"
import { answeringAnyone } from "../../../_http/answer"
import { clientAddress } from "../../../_http/client-address"
import { requireProvider, returnAddress, type ProviderProblem } from "../../../_http/provider"
import { placeHref } from "../../../_http/prove"
import { currentCaller } from "../../../_http/require-user"
import { readSessionCookie, writeSessionCookie } from "../../../_http/session-cookie"
import { site } from "../../../_http/site"
import { siteOrigin } from "../../../_http/site-origin"
import { takeStepCookie } from "../../../_http/step-cookie"

/** Where the clinic's provider sends a browser back to, with a code for whoever signed in there. */
export const GET = answeringAnyone(async (request) => {
  const settings = requireProvider()
  const address = new URL(`${returnAddress()}${new URL(request.url).search}`)
  const back = { address, sealed: await takeStepCookie("provider"), key: siteKey(site().dataDir) }
  try {
    const identity = await comeBackFromProvider(settings, { ...back, now: new Date() })
    return identity.proof ? await proved(identity) : await signedIn(identity, { settings, request })
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    await recordFailedReturn(store(), await clientAddress())
    return refused(error.code === "store-unavailable" ? "unreachable" : "failed")
  }
})

async function signedIn(
  identity: Identity,
  { settings, request }: { settings: ProviderSettings; request: Request },
): Promise<Response> {
  const now = new Date()
  const about = { agent: request.headers.get("user-agent") ?? "", address: await clientAddress(), now }
  const answer = await signInThroughProvider(store(), { identity, settings, ...about })
  if (!("token" in answer)) return refused(answer.status)
  const before = await readSessionCookie()
  if (before !== null) await endSession(store(), { token: before, reason: "signed in anew", now })
  await writeSessionCookie(answer.token)
  return onTo(answer.status === "half" ? "/sign-in/factor" : "/sign-in")
}

async function proved(identity: Identity): Promise<Response> {
  const caller = await currentCaller()
  const isProven =
    caller !== null && (await proveThroughProvider(store(), { identity, caller, now: new Date() }))
  return isProven ? onTo(placeHref(identity.proof?.to)) : refused("another")
}

function refused(problem: ProviderProblem): Response {
  return onTo(`/sign-in?provider=${problem}`)
}

function onTo(path: string): Response {
  return Response.redirect(`${siteOrigin()}${path}`, 303)
}
