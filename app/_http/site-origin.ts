import { readEnvironment } from "../../lib/env"

/** The one address by which people reach the site, as providers and authenticators know it; on this machine alone, localhost. */
export function siteOrigin(): string {
  const { origin, port } = readEnvironment()
  return origin ?? `http://localhost:${port}`
}
