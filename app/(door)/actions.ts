"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { AppError } from "../../lib/errors"
import { record } from "../../lib/store/audit"
import { strangerActor } from "../../lib/store/audit-actors"
import { store } from "../../lib/store/client"
import { demoPersonas } from "../../lib/store/demo-personas"
import { beginSession, endSession } from "../../lib/store/sessions"
import { clientAddress } from "../_http/client-address"
import { afterSignOut } from "../_http/provider"
import { currentCaller } from "../_http/require-user"
import { formField } from "../_http/form-field"
import { assertSameOrigin } from "../_http/same-origin"
import { clearSessionCookie, readSessionCookie, writeSessionCookie } from "../_http/session-cookie"

const PersonaId = z.uuid()

/** Enters the demo clinic as one of its invented people. */
export async function enterAsPersona(form: FormData): Promise<void> {
  const sent = await headers()
  assertSameOrigin(sent)
  const userId = formField(PersonaId, form.get("persona"))
  const personas = await demoPersonas(store())
  const persona = personas.find((one) => one.userId === userId)
  if (!persona) throw new AppError("not-permitted", "This clinic is no demo.")
  await leave("signed in as another")
  const address = await clientAddress()
  await record(store(), {
    by: { ...strangerActor(address === "" ? null : address, persona.name), actor: userId },
    ...{ action: "sign-in", detail: { method: "demo" } },
  })
  const token = await beginSession(store(), {
    ...{ userId, method: "demo", stage: "full", now: new Date() },
    ...{ agent: sent.get("user-agent") ?? "", address },
  })
  await writeSessionCookie(token)
  redirect("/sign-in")
}

/** Ends the session of this browser, and that at the clinic's provider if it began there. */
export async function signOut(): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await currentCaller()
  await leave("signed out")
  await clearSessionCookie()
  redirect(await afterSignOut(caller))
}

async function leave(reason: string): Promise<void> {
  const token = await readSessionCookie()
  if (token !== null) await endSession(store(), { token, reason, now: new Date() })
}
