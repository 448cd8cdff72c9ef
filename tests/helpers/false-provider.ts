import { createServer } from "node:http"
import { once } from "node:events"

/** Says what it is like any provider of sign-ins, and answers every code with `tokens`, whatever they are. */
export type FalseProvider = { issuer: string; tokens: string; close: () => void }

export async function openFalseProvider(): Promise<FalseProvider> {
  const server = createServer((request, response) => {
    const isMetadata = request.url?.includes("/.well-known/") ?? false
    response.setHeader("content-type", "application/json")
    response.end(isMetadata ? JSON.stringify(metadataOf(provider.issuer)) : provider.tokens)
  }).listen(0, "127.0.0.1")
  await once(server, "listening")
  const address = server.address()
  const port = typeof address === "object" && address ? address.port : 0
  const provider: FalseProvider = {
    issuer: `http://127.0.0.1:${port}`,
    tokens: "",
    close: () => server.close(),
  }
  return provider
}

function metadataOf(issuer: string) {
  return {
    issuer,
    ...{
      authorization_endpoint: `${issuer}/authorize`,
      token_endpoint: `${issuer}/token`,
      jwks_uri: `${issuer}/keys`,
    },
    ...{ response_types_supported: ["code"], subject_types_supported: ["public"] },
    id_token_signing_alg_values_supported: ["RS256"],
    code_challenge_methods_supported: ["S256"],
  }
}
