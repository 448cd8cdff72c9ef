import "server-only"
import { headers } from "next/headers"
import { forbidden, redirect } from "next/navigation"
import { cache } from "react"
import type { Caller } from "../../lib/access/caller"
import { may, type Capability } from "../../lib/access/permissions"
import { AppError } from "../../lib/errors"
import { store } from "../../lib/store/client"
import { findCaller } from "../../lib/store/sessions"
import { recordedOnce } from "./recorded"
import { readSessionCookie } from "./session-cookie"

/** Who asks, or null; looked up once a request where the framework allows it. */
export const currentCaller = cache(async (): Promise<Caller | null> => {
  const token = await readSessionCookie()
  if (token === null) return null
  return findCaller(store(), { token, now: new Date(), isActive: await isPersonsDoing() })
})

/**
 * The one check of every page, action and route: someone is signed in and may do this; who may not is in the audit log.
 * Throws AppError("not-signed-in") or AppError("not-permitted").
 */
export async function requireUser(what: Capability): Promise<Caller> {
  const caller = await currentCaller()
  if (!caller) throw new AppError("not-signed-in", "Sign in first.")
  if (!may(caller, what)) {
    await recordedOnce(caller, {
      ...{ action: "access.refuse", outcome: "refused", object: "capability", objectId: what },
    })
    throw new AppError("not-permitted", "This is not for the roles of this account.")
  }
  return caller
}

/** The same for a screen or an action: leads to the sign-in, or shows that it is not permitted. */
export async function requireScreenUser(what: Capability): Promise<Caller> {
  try {
    return await requireUser(what)
  } catch (error) {
    if (error instanceof AppError && error.code === "not-signed-in") redirect("/sign-in")
    if (error instanceof AppError && error.code === "not-permitted") forbidden()
    throw error
  }
}

/** Opening an address or sending a form is something a person does; a screen that asks again by itself is not. */
async function isPersonsDoing(): Promise<boolean> {
  const sent = await headers()
  return sent.get("sec-fetch-mode") === "navigate" || sent.has("next-action")
}
