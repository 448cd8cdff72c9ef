const loopbackNames = ["localhost", "127.0.0.1", "[::1]"]

/**
 * The origins under which the site answers: the one it was told (FILTRATE_ORIGIN), or this machine under its own names.
 * What a request says of itself never adds one.
 * @param {{ origin: string | undefined, port: number }} reach
 * @returns {string[]}
 */
export function ownOrigins({ origin, port }) {
  return origin ? [origin] : loopbackNames.map((name) => new URL(`http://${name}:${port}`).origin)
}

/**
 * Whether the host a request names is the site's own; a foreign name that was pointed at this machine is not.
 * @param {string | null | undefined} host
 * @param {readonly string[]} origins
 */
export function isOwnHost(host, origins) {
  return originOfHost(host, origins) !== undefined
}

/**
 * Whether a request that changes something comes from a page of this site: the browser says so in Sec-Fetch-Site, in
 * Origin, or in both, and neither may say otherwise. A form that is sent before the page's scripts run, or without any,
 * has the Origin "null", since pages here refer nobody to where they are; Sec-Fetch-Site then speaks alone.
 * @param {{ host: string | null, fetchSite: string | null, origin: string | null }} said
 * @param {readonly string[]} origins
 */
export function isFromOwnPage({ host, fetchSite, origin }, origins) {
  const own = originOfHost(host, origins)
  if (own === undefined) return false
  if (fetchSite === null && origin === null) return false
  if (fetchSite !== null && fetchSite !== "same-origin") return false
  return origin === null || origin === own || (origin === "null" && fetchSite === "same-origin")
}

/**
 * @param {string | null | undefined} host
 * @param {readonly string[]} origins
 */
function originOfHost(host, origins) {
  const named = host?.toLowerCase()
  return origins.find((origin) => new URL(origin).host === named)
}
