import { createServer, type Server } from "node:http"
import type { AddressInfo } from "node:net"
import { Provider } from "oidc-provider"

export type Someone = { name: string; preferred_username: string; groups: string[] }

export const clientId = "filtrate"
export const clientSecret = "a secret for the test run alone"
const nowhere = "http://localhost:3999"
export const redirectUri = `${nowhere}/provider/return`

/** A provider of identities on this machine, with the people given, for a site; `people` may be changed while it runs. */
export async function openProvider(people: Record<string, Someone>, siteOrigin = nowhere) {
  const server = createServer()
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve))
  const issuer = `http://127.0.0.1:${portOf(server)}`
  const provider = new Provider(issuer, {
    clients: [
      {
        ...{ client_id: clientId, client_secret: clientSecret },
        redirect_uris: [`${siteOrigin}/provider/return`],
        ...{ response_types: ["code"], grant_types: ["authorization_code"] },
        post_logout_redirect_uris: [`${siteOrigin}/sign-in`],
      },
    ],
    pkce: { required: () => true },
    conformIdTokenClaims: false,
    claims: { openid: ["sub"], profile: ["name", "preferred_username", "groups"] },
    cookies: { keys: ["a key for the test run alone"] },
    features: { devInteractions: { enabled: true }, rpInitiatedLogout: { enabled: true } },
    findAccount: (_context: unknown, id: string) => {
      const one = people[id]
      return one && { accountId: id, claims: () => ({ sub: id, ...one }) }
    },
    loadExistingGrant: async (context: {
      oidc: { client: { clientId: string }; session: { accountId: string } }
    }) => {
      const grant = new provider.Grant({
        clientId: context.oidc.client.clientId,
        accountId: context.oidc.session.accountId,
      })
      grant.addOIDCScope("openid profile")
      await grant.save()
      return grant
    },
  })
  server.on("request", provider.callback())
  return { issuer, close: () => close(server) }
}

/** Signs in at the provider as a browser would, and answers the address that leads back. */
export async function signInAtProvider(address: string, id: string): Promise<URL> {
  const jar = new Map<string, string>()
  let next = new URL(address)
  for (let step = 0; step < 12; step += 1) {
    const answer = await visit(next, jar, next.pathname.startsWith("/interaction/") ? id : null)
    const location = answer.headers.get("location")
    if (location === null) throw new Error(`the provider answered ${answer.status}: ${await answer.text()}`)
    next = new URL(location, next)
    if (next.href.startsWith(redirectUri)) return next
  }
  throw new Error("the provider leads in circles")
}

async function visit(address: URL, jar: Map<string, string>, id: string | null): Promise<Response> {
  const headers = { cookie: [...jar].map(([name, value]) => `${name}=${value}`).join("; ") }
  const form = new URLSearchParams({ prompt: "login", login: id ?? "", password: "any" })
  const answer = await fetch(address, {
    ...{ headers, redirect: "manual" },
    ...(id === null ? {} : { method: "POST", body: form }),
  })
  for (const cookie of answer.headers.getSetCookie()) {
    const pair = cookie.split(";")[0] ?? ""
    jar.set(pair.slice(0, pair.indexOf("=")), pair.slice(pair.indexOf("=") + 1))
  }
  return answer
}

export function portOf(server: Server): number {
  const address: AddressInfo | string | null = server.address()
  if (address === null || typeof address === "string") throw new Error("the server listens on no port")
  return address.port
}

export async function close(server: Server): Promise<void> {
  server.closeAllConnections()
  await new Promise((resolve) => server.close(resolve))
}
