"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { AppError } from "../../lib/errors"
import { store } from "../../lib/store/client"
import { demoPersonas } from "../../lib/store/demo-personas"
import { beginSession, endSession } from "../../lib/store/sessions"
import { clientAddress } from "../_http/client-address"
import { assertSameOrigin } from "../_http/same-origin"
import { clearSessionCookie, readSessionCookie, writeSessionCookie } from "../_http/session-cookie"

const PersonaId = z.uuid()

/** Enters the demo clinic as one of its invented people. */
export async function enterAsPersona(form: FormData): Promise<void> {
  const sent = await headers()
  assertSameOrigin(sent)
  const userId = PersonaId.parse(form.get("persona"))
  const personas = await demoPersonas(store())
  if (!personas.some((persona) => persona.userId === userId))
    throw new AppError("not-permitted", "This clinic is no demo.")
  await leave("signed in as another")
  const token = await beginSession(store(), {
    ...{ userId, method: "demo", stage: "full", now: new Date() },
    ...{ agent: sent.get("user-agent") ?? "", address: await clientAddress() },
  })
  await writeSessionCookie(token)
  redirect("/sign-in")
}

/** Ends the session of this browser. */
export async function signOut(): Promise<void> {
  assertSameOrigin(await headers())
  await leave("signed out")
  await clearSessionCookie()
  redirect("/sign-in")
}

async function leave(reason: string): Promise<void> {
  const token = await readSessionCookie()
  if (token !== null) await endSession(store(), { token, reason, now: new Date() })
}
