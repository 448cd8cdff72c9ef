import { createServer } from "node:http"
import { randomBytes } from "node:crypto"
import { exportJWK, exportSPKI, generateKeyPair } from "jose"
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from "vitest"
import { comeBackFromProvider, leaveForProvider } from "../../../lib/auth/provider"
import { providerSettings, type ProviderSettings } from "../../../lib/auth/provider-settings"
import {
  issuedCode,
  openForgingProvider,
  signed,
  unsigned,
  type Claims,
} from "../../helpers/forging-provider"
import { clientId, clientSecret, close, portOf, redirectUri } from "../../helpers/provider"

const key = randomBytes(32)

let provider: Awaited<ReturnType<typeof openForgingProvider>>

beforeAll(async () => {
  provider = await openForgingProvider()
  vi.stubEnv("FILTRATE_OIDC_ISSUER", provider.issuer)
})

afterAll(async () => {
  vi.unstubAllEnvs()
  await provider.close()
})

beforeEach(() => (provider.token.id = undefined))

type Making = (claims: Claims) => Promise<string> | string

test("a token as an honest provider makes it is taken", async () => {
  const identity = await comeBackWith((claims) => signed(claims, { key: provider.own.privateKey }))

  expect(identity).toMatchObject({ issuer: provider.issuer, subject: "someone" })
})

// Each differs from the token above in the one thing its title names (RFC 7519, OpenID Connect Core 1.0 section 3.1.3.7).
describe("a token is refused", () => {
  const wrong: Record<string, (claims: Claims) => Claims> = {
    "of another issuer": (claims) => ({ ...claims, iss: "https://other.example.org" }),
    "for another client": (claims) => ({ ...claims, aud: "another" }),
    "for several clients, none of them named as the one it was made for": (claims) => ({
      ...claims,
      aud: [clientId, "another"],
    }),
    "made for another of several clients": (claims) => ({
      ...claims,
      aud: [clientId, "another"],
      azp: "another",
    }),
    "that has ended": (claims) => ({ ...claims, exp: seconds() - 120 }),
    "without an end": (claims) => without(claims, "exp"),
    "that is not good yet": (claims) => ({ ...claims, nbf: seconds() + 600 }),
    "without a subject": (claims) => without(claims, "sub"),
    "without the nonce": (claims) => without(claims, "nonce"),
    "with another nonce": (claims) => ({ ...claims, nonce: "another" }),
    "of a sign-in longer ago than five minutes": (claims) => ({ ...claims, auth_time: seconds() - 400 }),
    "that does not say when the person signed in": (claims) => without(claims, "auth_time"),
  }

  test.each(Object.entries(wrong))("%s", async (_title, change) => {
    await expectRefused((claims) => signed(change(claims), { key: provider.own.privateKey }))
  })

  test("that nobody signed", () => expectRefused((claims) => unsigned(claims)))

  test("whose signature is cut off", () =>
    expectRefused(async (claims) => {
      const token = await signed(claims, { key: provider.own.privateKey })
      return token.slice(0, token.lastIndexOf(".") + 1)
    }))

  test("whose claims were changed after it was signed", () =>
    expectRefused(async (claims) => {
      const [header, , signature] = (await signed(claims, { key: provider.own.privateKey })).split(".")
      const changed = Buffer.from(JSON.stringify({ ...claims, sub: "someone-else" })).toString("base64url")
      return [header, changed, signature].join(".")
    }))

  test("signed by another key under the name of the provider's", async () => {
    const other = await generateKeyPair("RS256")

    await expectRefused((claims) => signed(claims, { key: other.privateKey }))
  })

  test("that brings its own key along", async () => {
    const other = await generateKeyPair("RS256")
    const jwk = await exportJWK(other.publicKey)

    await expectRefused((claims) => signed(claims, { key: other.privateKey, header: { jwk } }))
  })

  test("that says where its key is, and nobody asks there", async () => {
    const other = await generateKeyPair("RS256")
    const asked: string[] = []
    const server = createServer((request, response) => {
      asked.push(request.url ?? "")
      response.end()
    })
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve))
    const jku = `http://127.0.0.1:${portOf(server)}/keys`

    await expectRefused((claims) =>
      signed(claims, { key: other.privateKey, header: { jku, x5u: jku, kid: "theirs" } }),
    )
    await close(server)
    expect(asked).toEqual([])
  })

  test("signed with the provider's public key as if it were a shared secret", async () => {
    const text = await exportSPKI(provider.own.publicKey)

    await expectRefused((claims) =>
      signed(claims, { key: Buffer.from(text), header: { alg: "HS256", kid: "own" } }),
    )
  })

  test("signed with the client's secret, since only signatures of keys are on the list", () =>
    expectRefused((claims) => signed(claims, { key: Buffer.from(clientSecret), header: { alg: "HS256" } })))

  test("when there is none", () => expectRefused(() => Promise.resolve("")))
})

describe("where a class of authentication is demanded", () => {
  const demanding = { acr: "urn:example:two-factors mfa" }
  const made = (more: Claims) => (claims: Claims) =>
    signed({ ...claims, ...more }, { key: provider.own.privateKey })

  test.each([{ acr: "urn:example:two-factors" }, { amr: ["pwd", "mfa"] }])("%j is enough", async (more) => {
    expect((await comeBackWith(made(more), demanding)).subject).toBe("someone")
  })

  test.each([{}, { acr: "urn:example:one-factor" }, { amr: ["pwd"] }, { amr: "mfa" }, { acr: ["mfa"] }])(
    "%j is not",
    (more) => expectRefused(made(more), demanding),
  )
})

describe("a proof of identity at the provider", () => {
  const proof = { userId: "a user", to: "account" }
  const made = (ago: number) => (claims: Claims) =>
    signed({ ...claims, auth_time: seconds() - ago }, { key: provider.own.privateKey })

  test("is given by somebody who signed in there since", async () => {
    expect((await comeBackWith(made(0), { proof })).proof).toEqual(proof)
  })

  test("is refused of a sign-in from before it was asked for", () => expectRefused(made(200), { proof }))
})

test("a provider at a host that is not named is not asked", async () => {
  vi.stubEnv("FILTRATE_OIDC_ISSUER", "https://other.example.org")
  const before = provider.asked.length

  await expect(
    leaveForProvider({ ...settingsWith({}), clientId: "another" }, { redirectUri, key, now: new Date() }),
  ).rejects.toMatchObject({ code: "store-unavailable" })

  vi.stubEnv("FILTRATE_OIDC_ISSUER", provider.issuer)
  expect(provider.asked).toHaveLength(before)
})

type More = { acr?: string; proof?: { userId: string; to: string } }

async function comeBackWith(make: Making, more: More = {}) {
  const settings = settingsWith(more)
  const leaving = { redirectUri, key, now: new Date(), proof: more.proof ?? null }
  const { address, sealed } = await leaveForProvider(settings, leaving)
  const { state, nonce } = Object.fromEntries(new URL(address).searchParams)
  provider.token.id = await make({
    ...{ iss: provider.issuer, aud: clientId, sub: "someone", nonce },
    ...{ iat: seconds(), exp: seconds() + 300, auth_time: seconds() },
  })
  const back = new URL(redirectUri)
  back.search = new URLSearchParams({ code: issuedCode, state: state ?? "", iss: provider.issuer }).toString()
  return comeBackFromProvider(settings, { address: back, sealed, key, now: new Date() })
}

async function expectRefused(make: Making, more: More = {}): Promise<void> {
  await expect(comeBackWith(make, more)).rejects.toMatchObject({ code: "not-signed-in" })
}

function settingsWith({ acr }: More): ProviderSettings {
  const settings = providerSettings({
    ...{ issuer: provider.issuer, clientId, clientSecret, clientSecretFile: undefined, acr },
    ...{ scope: "openid", roleClaim: "groups", roleMap: "nurses=nurse", factor: "provider" },
  })
  if (!settings) throw new Error("the provider is not configured")
  return settings
}

function without(claims: Claims, name: string): Claims {
  return Object.fromEntries(Object.entries(claims).filter(([claim]) => claim !== name))
}

function seconds(): number {
  return Math.floor(Date.now() / 1000)
}
