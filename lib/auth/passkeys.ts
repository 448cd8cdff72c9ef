import "server-only"
import {
  generateAuthenticationOptions,
  generateRegistrationOptions,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
} from "@simplewebauthn/server"
import type { Account } from "../store/accounts"
import type { Actor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import {
  challengeLastsMs,
  keepChallenge,
  takeChallenge,
  type ChallengePurpose,
} from "../store/passkey-challenges"
import { addPasskey, findPasskeyKey, listPasskeyKeys, markPasskeyUsed } from "../store/passkeys"
import { MadePasskey, SignedByPasskey } from "./passkey-answers"

/** The site as authenticators know it: a passkey made for one origin signs for no other. */
export type PasskeySite = { origin: string }

/** ES256, EdDSA and RS256, by their numbers in the COSE registry (RFC 9053, tables 1 and 2; RFC 8812, table 2; from memory). */
const algorithms = [-7, -8, -257]

/** What to ask an authenticator for a new passkey, and the token under which its answer is taken. */
export async function askForNewPasskey(
  client: PrismaClient,
  asked: { account: Account; site: PasskeySite; now: Date },
) {
  const { account, site, now } = asked
  const known = await listPasskeyKeys(client, account.id)
  const options = await generateRegistrationOptions({
    ...{ rpName: "Filtrate", rpID: nameOf(site), timeout: challengeLastsMs, attestationType: "none" },
    ...{ userID: handleOf(account.id), userName: account.userName, userDisplayName: account.name },
    excludeCredentials: known.map(({ id, transports }) => ({ id, transports })),
    authenticatorSelection: { residentKey: "required", userVerification: "required" },
    supportedAlgorithmIDs: algorithms,
  })
  const kept = { purpose: "register", userId: account.id, challenge: options.challenge, now } as const
  return { options, token: await keepChallenge(client, kept) }
}

/** Adds a passkey, once the authenticator's answer is found to be to what was asked; false when it is not. */
export async function addNewPasskey(
  client: PrismaClient,
  made: {
    answer: unknown
    token: string
    userId: string
    name: string
    by: Actor
    site: PasskeySite
    now: Date
  },
): Promise<boolean> {
  const { answer, token, userId, name, by, site, now } = made
  const challenge = await takeChallenge(client, { token, purpose: "register", userId, now })
  const response = MadePasskey.safeParse(answer)
  if (challenge === null || !response.success) return false
  const checked = await orNull(
    verifyRegistrationResponse({
      ...{ response: response.data, expectedChallenge: challenge, requireUserVerification: true },
      ...{ expectedOrigin: site.origin, expectedRPID: nameOf(site), supportedAlgorithmIDs: algorithms },
    }),
  )
  if (!checked?.verified) return false
  const { id, publicKey, counter } = checked.registrationInfo.credential
  const { transports } = response.data.response
  const key = { id, userId, publicKey, counter: BigInt(counter), transports }
  return addPasskey(client, { ...key, name, by, now })
}

/**
 * What to ask an authenticator to sign, and the token under which its answer is taken; of one person's passkeys, or of any
 * that the authenticator holds for this site.
 */
export async function askForSignature(
  client: PrismaClient,
  asked: {
    purpose: Exclude<ChallengePurpose, "register">
    userId: string | null
    site: PasskeySite
    now: Date
  },
) {
  const { purpose, userId, site, now } = asked
  const known = userId === null ? [] : await listPasskeyKeys(client, userId)
  const options = await generateAuthenticationOptions({
    ...{ rpID: nameOf(site), timeout: challengeLastsMs, userVerification: "required" },
    allowCredentials: known.map(({ id, transports }) => ({ id, transports })),
  })
  return {
    options,
    token: await keepChallenge(client, { purpose, userId, challenge: options.challenge, now }),
  }
}

/**
 * Whose passkey has signed what was asked, or null: another challenge, site or person, an unknown passkey, a person it did not
 * verify, a wrong signature, or a counter that did not rise.
 */
export async function checkSignature(
  client: PrismaClient,
  signed: {
    answer: unknown
    token: string
    purpose: Exclude<ChallengePurpose, "register">
    userId: string | null
    site: PasskeySite
    now: Date
  },
): Promise<string | null> {
  const { answer, token, purpose, userId, site, now } = signed
  const challenge = await takeChallenge(client, { token, purpose, userId, now })
  const response = SignedByPasskey.safeParse(answer)
  if (challenge === null || !response.success) return null
  const key = await findPasskeyKey(client, response.data.id)
  if (!key || (userId !== null && key.userId !== userId)) return null
  const { userHandle } = response.data.response
  const saysWhose = userHandle !== "" || userId === null
  if (saysWhose && userHandle !== Buffer.from(handleOf(key.userId)).toString("base64url")) return null
  const { id, publicKey, counter } = key
  const checked = await orNull(
    verifyAuthenticationResponse({
      ...{ response: response.data, expectedChallenge: challenge, requireUserVerification: true },
      ...{ expectedOrigin: site.origin, expectedRPID: nameOf(site) },
      credential: { id, publicKey: new Uint8Array(publicKey), counter: Number(counter) },
    }),
  )
  if (!checked?.verified) return null
  const used = { id, before: counter, counter: BigInt(checked.authenticationInfo.newCounter), now }
  return (await markPasskeyUsed(client, used)) ? key.userId : null
}

/** The library throws for whatever does not hold; all of it is one refusal. */
async function orNull<T>(checking: Promise<T>): Promise<T | null> {
  try {
    return await checking
  } catch {
    return null
  }
}

function nameOf({ origin }: PasskeySite): string {
  return new URL(origin).hostname
}

/** What a passkey carries of its person: the 16 bytes of the account's id, which say nothing of anybody. */
function handleOf(userId: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(Buffer.from(userId.replaceAll("-", ""), "hex"))
}
