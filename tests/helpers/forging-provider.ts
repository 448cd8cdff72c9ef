import { createServer } from "node:http"
import { generateKeyPair, exportJWK, SignJWT, type JWK } from "jose"
import { close, portOf } from "./provider"

export type Claims = Record<string, unknown>
type Key = CryptoKey | Uint8Array

export const issuedCode = "the only code"

/**
 * A provider whose token endpoint answers with whatever ID token a test puts into `token.id`: metadata, one key and no
 * sign-in, for tokens that an honest provider never makes.
 */
export async function openForgingProvider() {
  const server = createServer()
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve))
  const issuer = `http://127.0.0.1:${portOf(server)}`
  const own = await generateKeyPair("RS256")
  const publicKey: JWK = { ...(await exportJWK(own.publicKey)), kid: "own", use: "sig", alg: "RS256" }
  const asked: string[] = []
  const token: { id: string | undefined } = { id: undefined }
  const metadata = {
    ...{ issuer, authorization_endpoint: `${issuer}/auth`, token_endpoint: `${issuer}/token` },
    ...{
      jwks_uri: `${issuer}/keys`,
      response_types_supported: ["code"],
      subject_types_supported: ["public"],
    },
    ...{ id_token_signing_alg_values_supported: ["RS256", "HS256", "none"] },
    authorization_response_iss_parameter_supported: true,
  }
  server.on("request", (request, response) => {
    asked.push(request.url ?? "")
    const answers: Record<string, unknown> = {
      "/.well-known/openid-configuration": metadata,
      "/keys": { keys: [publicKey] },
      "/token": { access_token: "unused", token_type: "Bearer", id_token: token.id },
    }
    response.writeHead(200, { "content-type": "application/json" })
    response.end(JSON.stringify(answers[request.url ?? ""] ?? {}))
  })
  return { issuer, own, publicKey, asked, token, close: () => close(server) }
}

/** A token signed by a key, under the name of the provider's own unless the header says otherwise. */
export async function signed(
  claims: Claims,
  { key, header = {} }: { key: Key; header?: Record<string, unknown> },
): Promise<string> {
  return new SignJWT(claims).setProtectedHeader({ alg: "RS256", kid: "own", ...header }).sign(key)
}

/** A token that nobody signed. */
export function unsigned(claims: Claims): string {
  return `${part({ alg: "none", typ: "JWT" })}.${part(claims)}.`
}

function part(of: Claims): string {
  return Buffer.from(JSON.stringify(of), "utf8").toString("base64url")
}
