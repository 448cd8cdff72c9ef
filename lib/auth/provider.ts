import "server-only"
import * as oidc from "openid-client"
import { z } from "zod"
import { AppError } from "../errors"
import { askOutside } from "../outgoing"
import type { ProviderSettings } from "./provider-settings"
import { seal, unseal } from "./seal"

/** For a person who is signed in and shows once more who they are: who, and where that leads back to. */
const Proof = z.object({ userId: z.string(), to: z.string() })

/** What a browser keeps, sealed, between leaving for the provider and coming back. */
const Flow = z.object({
  ...{ state: z.string(), nonce: z.string(), verifier: z.string(), begunAt: z.number() },
  proof: Proof.nullable(),
})

export type ProviderProof = z.infer<typeof Proof>

/** Who the provider says has signed in. */
export type Identity = {
  issuer: string
  subject: string
  claims: Readonly<Record<string, unknown>>
  proof: ProviderProof | null
}

export const flowLastsMs = 10 * 60_000
/** How long ago someone may have typed their password at the provider. */
const freshSeconds = 300
/** How far two clocks may be apart. */
const skewMs = 60_000
const waitSeconds = 10
const configurationLastsMs = 60 * 60_000
const algorithms = ["RS256", "RS384", "RS512", "PS256", "PS384", "PS512", "ES256", "ES384", "ES512", "EdDSA"]
const purpose = "sign-in through the provider"

const Header = z.object({ alg: z.string() })

/** What of a token says how and when the person proved who they are. */
const Authentication = z.object({
  acr: z.string().optional(),
  amr: z.array(z.string()).default([]),
  auth_time: z.number().optional(),
})

const known = new Map<string, { configuration: oidc.Configuration; until: number }>()

/** Where to send a browser, and what it keeps in a cookie meanwhile. */
export async function leaveForProvider(
  settings: ProviderSettings,
  leaving: { redirectUri: string; key: Buffer; now: Date; proof?: ProviderProof | null },
): Promise<{ address: string; sealed: string }> {
  const configuration = await configurationOf(settings)
  const flow = {
    ...{ state: oidc.randomState(), nonce: oidc.randomNonce(), verifier: oidc.randomPKCECodeVerifier() },
    ...{ begunAt: leaving.now.getTime(), proof: leaving.proof ?? null },
  }
  const address = oidc.buildAuthorizationUrl(configuration, {
    ...{ response_type: "code", scope: settings.scope, redirect_uri: leaving.redirectUri },
    ...{ state: flow.state, nonce: flow.nonce, max_age: String(freshSeconds) },
    ...{
      code_challenge: await oidc.calculatePKCECodeChallenge(flow.verifier),
      code_challenge_method: "S256",
    },
    ...(settings.acrs.length > 0 ? { acr_values: settings.acrs.join(" ") } : {}),
    ...(flow.proof ? { prompt: "login" } : {}),
  })
  const sealed = seal(leaving.key, Buffer.from(JSON.stringify(flow), "utf8"), purpose)
  return { address: address.href, sealed: Buffer.from(sealed).toString("base64url") }
}

/**
 * Who came back from the provider, once everything it sent has been checked: that this browser left lately, state, nonce,
 * code verifier, issuer, audience, times, signature with a listed algorithm and one of the issuer's keys, how long ago the
 * person proved who they are and, where it is demanded, how. Throws AppError("not-signed-in").
 */
export async function comeBackFromProvider(
  settings: ProviderSettings,
  back: { address: URL; sealed: string; key: Buffer; now: Date },
): Promise<Identity> {
  const opened = unseal(back.key, Buffer.from(back.sealed, "base64url"), purpose)
  if (!opened) throw refused("the cookie is missing or was not sealed here")
  const flow = Flow.parse(JSON.parse(opened.toString("utf8")))
  if (back.now.getTime() - flow.begunAt >= flowLastsMs) throw refused("the sign-in took too long")
  const configuration = await configurationOf(settings)
  const tokens = await oidc
    .authorizationCodeGrant(configuration, back.address, {
      ...{ pkceCodeVerifier: flow.verifier, expectedState: flow.state, expectedNonce: flow.nonce },
      ...{ maxAge: freshSeconds, idTokenExpected: true },
    })
    .catch((cause: unknown) => {
      throw refused("the provider's answer does not hold", cause)
    })
  const claims = tokens.claims()
  if (!claims || !isListed(tokens.id_token ?? "")) throw refused("the algorithm is not listed")
  const how = Authentication.safeParse(claims)
  if (!how.success) throw refused("how the person signed in cannot be read")
  if (settings.acrs.length > 0 && !settings.acrs.some((acr) => [how.data.acr, ...how.data.amr].includes(acr)))
    throw refused("the provider did not ask for what is demanded")
  if (flow.proof && (how.data.auth_time ?? 0) * 1000 < flow.begunAt - skewMs)
    throw refused("the proof is older than what it was asked for")
  return { issuer: claims.iss, subject: claims.sub, claims, proof: flow.proof }
}

/** Where to send a browser that signs out, so that the provider forgets it too; null when the provider offers no such thing. */
export async function signOutAtProvider(
  settings: ProviderSettings,
  returnTo: string,
): Promise<string | null> {
  const configuration = await configurationOf(settings)
  if (configuration.serverMetadata().end_session_endpoint === undefined) return null
  return oidc.buildEndSessionUrl(configuration, { post_logout_redirect_uri: returnTo }).href
}

/** The provider's metadata, asked for once an hour, at the issuer and at no host that is not named (`lib/outgoing.ts`). */
async function configurationOf(settings: ProviderSettings): Promise<oidc.Configuration> {
  const { issuer, clientId, clientSecret } = settings
  const name = JSON.stringify([issuer.href, clientId, clientSecret])
  const before = known.get(name)
  if (before && Date.now() < before.until) return before.configuration
  // The settings admit plain HTTP on this machine alone.
  const plain = issuer.protocol === "http:" ? [oidc.allowInsecureRequests] : []
  const configuration = await oidc
    .discovery(issuer, clientId, clientSecret, undefined, {
      [oidc.customFetch]: ask,
      timeout: waitSeconds,
      execute: [...plain, oidc.enableNonRepudiationChecks],
    })
    .catch((cause: unknown) => {
      throw new AppError("store-unavailable", "The clinic's provider does not answer.", { cause })
    })
  known.set(name, { configuration, until: Date.now() + configurationLastsMs })
  return configuration
}

function ask(address: string, { body, headers, method, signal }: oidc.CustomFetchOptions): Promise<Response> {
  const text = body instanceof URLSearchParams ? body.toString() : body
  if (text !== undefined && text !== null && typeof text !== "string")
    throw new TypeError("the provider is asked with text alone")
  return askOutside(address, { body: text ?? null, headers, method, signal: signal ?? null })
}

function isListed(idToken: string): boolean {
  const header = Buffer.from(idToken.split(".")[0] ?? "", "base64url").toString("utf8")
  return algorithms.includes(Header.parse(JSON.parse(header)).alg)
}

function refused(reason: string, cause?: unknown): AppError {
  return new AppError("not-signed-in", "The sign-in through the clinic's provider did not succeed.", {
    ...{ log: `Sign-in through the provider refused: ${reason}`, cause },
  })
}
