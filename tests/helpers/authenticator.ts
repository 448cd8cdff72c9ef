import { Secret, TOTP } from "otpauth"

/** What an authenticator app would show for a key as it is typed. */
export function codeOf(key: string, now = Date.now()): string {
  const secret = Secret.fromBase32(key.replaceAll(" ", ""))
  return new TOTP({ secret, digits: 6, period: 30 }).generate({ timestamp: now })
}
