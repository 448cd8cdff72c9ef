import "server-only"
import { cookies } from "next/headers"
import { sessionLimits } from "../../lib/access/session-limits"
import { readEnvironment } from "../../lib/env"

/** The cookie of a session; on plain HTTP, which only this machine is served, a browser takes no name with a prefix. */
export function sessionCookieName(isSecure: boolean): string {
  return isSecure ? "__Host-filtrate" : "filtrate"
}

export async function readSessionCookie(): Promise<string | null> {
  const jar = await cookies()
  return jar.get(sessionCookieName(isSecureSite()))?.value ?? null
}

export async function writeSessionCookie(token: string): Promise<void> {
  const jar = await cookies()
  jar.set(sessionCookieName(isSecureSite()), token, {
    ...{ httpOnly: true, secure: isSecureSite(), sameSite: "lax", path: "/" },
    maxAge: sessionLimits.absoluteMs / 1000,
  })
}

export async function clearSessionCookie(): Promise<void> {
  const jar = await cookies()
  jar.set(sessionCookieName(isSecureSite()), "", {
    ...{ httpOnly: true, secure: isSecureSite(), sameSite: "lax", path: "/", maxAge: 0 },
  })
}

/** Whether people reach the site by HTTPS, which FILTRATE_ORIGIN says. */
export function isSecureSite(): boolean {
  return readEnvironment().origin?.startsWith("https://") ?? false
}
