import "server-only"
import { headers } from "next/headers"

/**
 * Where a request comes from. The front of the site (lib/front) leaves one address there: the peer's own, or what a trusted
 * proxy says of the sender; nothing that a browser claims.
 */
export async function clientAddress(): Promise<string> {
  return (await headers()).get("x-forwarded-for") ?? ""
}
