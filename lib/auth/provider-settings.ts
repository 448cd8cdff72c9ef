import "server-only"
import { readFileSync } from "node:fs"
import { isRole, type Role } from "../access/roles"
import { readEnvironment, type ProviderVariables } from "../env"
import { AppError } from "../errors"

export type ProviderSettings = {
  issuer: URL
  clientId: string
  clientSecret: string
  scope: string
  /** The claim that holds groups or roles; a dot goes into an object. */
  roleClaim: string
  /** The roles here that each value of the claim gives. */
  rolesByValue: ReadonlyMap<string, readonly Role[]>
  /** The classes of authentication of which the provider must state one; none means that it is not asked. */
  acrs: readonly string[]
  factor: "provider" | "ours"
}

const loopbackHosts = ["127.0.0.1", "localhost", "[::1]"]

/** The clinic's own provider, or null where none is configured. Throws AppError("start-failed") for what cannot be used. */
export function providerSettings(
  variables: ProviderVariables | undefined = readEnvironment().provider,
): ProviderSettings | null {
  if (!variables) return null
  const issuer = new URL(variables.issuer)
  const isPlainLoopback = issuer.protocol === "http:" && loopbackHosts.includes(issuer.hostname)
  if (issuer.protocol !== "https:" && !isPlainLoopback)
    throw unusable("FILTRATE_OIDC_ISSUER must begin with https://.")
  return {
    issuer,
    clientId: needed("FILTRATE_OIDC_CLIENT_ID", variables.clientId),
    clientSecret: secretOf(variables),
    scope: variables.scope,
    roleClaim: needed("FILTRATE_OIDC_ROLE_CLAIM", variables.roleClaim),
    rolesByValue: rolesByValue(needed("FILTRATE_OIDC_ROLE_MAP", variables.roleMap)),
    acrs: (variables.acr ?? "").split(/\s+/).filter((acr) => acr !== ""),
    factor: variables.factor,
  }
}

function secretOf({ clientSecret, clientSecretFile }: ProviderVariables): string {
  if (clientSecret !== undefined || clientSecretFile === undefined)
    return needed("FILTRATE_OIDC_CLIENT_SECRET", clientSecret)
  try {
    return needed("FILTRATE_OIDC_CLIENT_SECRET_FILE", readFileSync(clientSecretFile, "utf8").trim())
  } catch (cause) {
    throw new AppError("start-failed", "The file of FILTRATE_OIDC_CLIENT_SECRET_FILE cannot be read.", {
      cause,
    })
  }
}

/** "value=role,other value=role": the last "=" divides, as a value may be a name with "=" in it. */
function rolesByValue(text: string): Map<string, Role[]> {
  const known = new Map<string, Role[]>()
  for (const pair of text.split(",")) {
    const cut = pair.lastIndexOf("=")
    const value = pair.slice(0, cut).trim()
    const role = pair.slice(cut + 1).trim()
    if (cut < 1 || !isRole(role)) throw unusable(`FILTRATE_OIDC_ROLE_MAP holds no role in "${pair.trim()}".`)
    known.set(value, [...(known.get(value) ?? []), role])
  }
  return known
}

function needed(name: string, value: string | undefined): string {
  if (value === undefined || value === "") throw unusable(`With FILTRATE_OIDC_ISSUER goes ${name}.`)
  return value
}

function unusable(words: string): AppError {
  return new AppError("start-failed", words)
}
