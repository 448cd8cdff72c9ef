import "server-only"
import { siteKey } from "../../lib/store/secrets"
import { findAccountById, type Account } from "../../lib/store/accounts"
import { store } from "../../lib/store/client"
import { findHalfSignedIn, type FirstFactor } from "../../lib/store/sessions"
import { readSessionCookie } from "./session-cookie"
import { site } from "./site"

export type HalfSignedIn = { token: string; account: Account; method: FirstFactor; key: Buffer }

/** Who has given a first factor and owes the second, with the key that factors are sealed with; or null. */
export async function halfSignedIn(): Promise<HalfSignedIn | null> {
  const token = await readSessionCookie()
  if (token === null) return null
  const half = await findHalfSignedIn(store(), { token, now: new Date() })
  const account = half && (await findAccountById(store(), half.userId))
  return half && account ? { token, account, method: half.method, key: siteKey(site().dataDir) } : null
}
