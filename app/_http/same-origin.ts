import { AppError } from "../../lib/errors"
import { isFromOwnPage, isOwnHost } from "../../lib/front/origins.mjs"
import { readReach } from "../../lib/reach"

/**
 * Refuses what was not sent by a page of this site. The same question is asked of every request before anything reads it
 * (lib/front); an action or route that changes something asks it again for itself. Throws AppError("bad-request").
 */
export function assertSameOrigin(headers: Headers): void {
  const said = {
    host: headers.get("host"),
    fetchSite: headers.get("sec-fetch-site"),
    origin: headers.get("origin"),
  }
  if (!isFromOwnPage(said, readReach().ownOrigins)) throw foreign()
}

/** Refuses a request under a name that is not the site's own. Throws AppError("bad-request"). */
export function assertOwnHost(headers: Headers): void {
  if (!isOwnHost(headers.get("host"), readReach().ownOrigins)) throw foreign()
}

function foreign(): AppError {
  return new AppError("bad-request", "This request did not come from a page of this site.")
}
