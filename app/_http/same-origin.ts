import { AppError } from "../../lib/errors"

const loopback = /^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/

/**
 * Refuses a request that another site made in the reader's browser. The host must be this machine under one of its own
 * names (a name that an attacker points here is none of them), and what changes something must come from a page of ours:
 * the browser says so in Sec-Fetch-Site, in Origin, or in both, and neither may say otherwise.
 * Throws AppError("bad-request").
 */
export function assertSameOrigin(headers: Headers): void {
  assertOwnHost(headers)
  const fetchSite = headers.get("sec-fetch-site")
  const origin = headers.get("origin")
  if (fetchSite === null && origin === null) throw foreign()
  if (fetchSite !== null && fetchSite !== "same-origin") throw foreign()
  if (origin !== null && !(URL.canParse(origin) && new URL(origin).host === headers.get("host")))
    throw foreign()
}

/** Refuses a request under a name that is not this machine's own. Throws AppError("bad-request"). */
export function assertOwnHost(headers: Headers): void {
  if (!loopback.test(headers.get("host") ?? "")) throw foreign()
}

function foreign(): AppError {
  return new AppError("bad-request", "This request did not come from a page of this site.")
}
