import { isFromOwnPage, isOwnHost } from "./origins.mjs"

/** @typedef {{ status: number, message: string, headers?: Record<string, string> }} Refusal */

const methods = ["GET", "HEAD", "POST"]

/** The panel's filters take several words of a kind; these of its names take one, as every name of other screens does. */
const filterPath = "/patients"
const singleNames = new Set(["month", "measure", "sort", "_rsc"])

/**
 * Why a request is not let in, or null. Nothing of it has been read but its first lines.
 * @param {{ method: string, url: string, host: string | null, fetchSite: string | null, origin: string | null }} request
 * @param {readonly string[]} origins
 * @returns {Refusal | null}
 */
export function refusalOf(request, origins) {
  if (!methods.includes(request.method))
    return {
      status: 405,
      message: "This method is not used here.",
      headers: { allow: methods.join(", ") },
    }
  if (!isOwnHost(request.host, origins)) return foreign
  const address = addressOf(request.url)
  if (address === null) return { status: 400, message: "This is no address of this site." }
  const repeated = [...address.searchParams.keys()].filter((name, place, all) => all.indexOf(name) !== place)
  if (repeated.some((name) => address.pathname !== filterPath || singleNames.has(name)))
    return { status: 400, message: "The address says one thing twice." }
  if (request.method === "POST" && !isFromOwnPage(request, origins)) return foreign
  return null
}

/** A path of this site that can be read, or null. */
function addressOf(/** @type {string} */ url) {
  if (!url.startsWith("/") || url.startsWith("//") || !URL.canParse(url, "http://site")) return null
  const address = new URL(url, "http://site")
  try {
    decodeURIComponent(address.pathname)
    return address
  } catch {
    return null
  }
}

/** @type {Refusal} */
const foreign = { status: 400, message: "This request did not come from a page of this site." }

/** What only the program says to itself, or a trusted proxy to it; from anybody else it is taken away. */
const inner =
  /^(x-forwarded-.*|forwarded|x-real-ip|x-client-ip|true-client-ip|cf-connecting-ip|x-middleware-.*|x-invoke-.*|x-user-.*|x-original-.*|x-rewrite-.*|x-http-method.*|x-method-override|x-nonce|x-matched-path|content-security-policy.*)$/

/**
 * The names of the headers that are taken away before anything reads them.
 * @param {readonly string[]} names
 */
export function innerHeaders(names) {
  return names.filter((name) => inner.test(name.toLowerCase()))
}
