import { z } from "zod"
import { Origin, parseVariables } from "./env"
import { AppError } from "./errors"

const Outgoing = z.object({
  FILTRATE_OUTGOING: z
    .string()
    .default("")
    .transform((words) => words.split(",").map((word) => word.trim()))
    .transform((words) => words.filter((word) => word !== ""))
    .pipe(z.array(Origin)),
  FILTRATE_OIDC_ISSUER: z.url().optional(),
})

const patienceMs = 30_000

/**
 * The one way by which the program calls another server: only an origin that FILTRATE_OUTGOING names, or that of the clinic's
 * own provider, by HTTPS unless that says otherwise, without following a redirect, and for 30 seconds at most. An address that came with a record or a request
 * leads nowhere else. Throws AppError("not-permitted") before anything is sent.
 */
export async function askOutside(address: string | URL, init: RequestInit = {}): Promise<Response> {
  const { FILTRATE_OUTGOING: named, FILTRATE_OIDC_ISSUER: issuer } = parseVariables(Outgoing)
  const allowed = issuer === undefined ? named : [...named, new URL(issuer).origin]
  const target = URL.canParse(String(address)) ? new URL(address) : null
  if (target === null || !allowed.includes(target.origin) || target.username !== "" || target.password !== "")
    throw new AppError("not-permitted", "This server is none of those that Filtrate may call.")
  return fetch(target, { signal: AbortSignal.timeout(patienceMs), ...init, redirect: "error" })
}
