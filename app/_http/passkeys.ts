import "server-only"
import type { PasskeySite } from "../../lib/auth/passkeys"
import { challengeLastsMs } from "../../lib/store/passkey-challenges"
import { siteOrigin } from "./site-origin"
import { takeStepCookie, writeStepCookie } from "./step-cookie"

/** The site as authenticators know it. */
export function passkeySite(): PasskeySite {
  return { origin: siteOrigin() }
}

/** Binds a question to the browser that asked, and answers what goes to its authenticator. */
export async function bound<Options>(question: { options: Options; token: string }): Promise<Options> {
  await writeStepCookie("passkey", { value: question.token, lastsMs: challengeLastsMs })
  return question.options
}

/** The token under which this browser's answer is taken; good once. */
export function boundToken(): Promise<string> {
  return takeStepCookie("passkey")
}
