import "server-only"
import { cookies } from "next/headers"
import { isSecureSite } from "./session-cookie"

/** What a browser keeps for some minutes between two steps of a sign-in; each kind has a cookie of its own. */
export type StepCookie = "provider" | "passkey"

export async function writeStepCookie(
  kind: StepCookie,
  kept: { value: string; lastsMs: number },
): Promise<void> {
  const jar = await cookies()
  jar.set(nameOf(kind), kept.value, { ...shape(), maxAge: kept.lastsMs / 1000 })
}

/** What was kept, empty when nothing was; it is kept no longer. */
export async function takeStepCookie(kind: StepCookie): Promise<string> {
  const jar = await cookies()
  const value = jar.get(nameOf(kind))?.value ?? ""
  jar.set(nameOf(kind), "", { ...shape(), maxAge: 0 })
  return value
}

function nameOf(kind: StepCookie): string {
  return `${isSecureSite() ? "__Host-" : ""}filtrate-${kind}`
}

function shape() {
  return { httpOnly: true, secure: isSecureSite(), sameSite: "lax", path: "/" } as const
}
