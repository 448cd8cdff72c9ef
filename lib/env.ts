import { existsSync, readFileSync } from "node:fs"
import path from "node:path"
import { parseEnv } from "node:util"
import { z } from "zod"
import { AppError } from "./errors"

const TimeZone = z.string().refine(isTimeZone, "is not an IANA time zone, for example Europe/Oslo")

export const Origin = z
  .string()
  .refine(isOrigin, "is not an origin, for example https://filtrate.example.org")

const Env = z.object({
  DATABASE_URL: z.string().min(1).optional(),
  FILTRATE_APP_DATABASE_URL: z.string().min(1).optional(),
  FILTRATE_IMPORT_DATABASE_URL: z.string().min(1).optional(),
  FILTRATE_SNAPSHOT_DATABASE_URL: z.string().min(1).optional(),
  FILTRATE_DATA: z.string().min(1).default(".data"),
  FILTRATE_DEMO: z.enum(["on", "off"]).default("on"),
  FILTRATE_ORIGIN: Origin.optional(),
  FILTRATE_SECRET_KEY: z.string().min(1).optional(),
  FILTRATE_BREACHED_HASHES: z.string().min(1).optional(),
  FILTRATE_OIDC_ISSUER: z.url().optional(),
  FILTRATE_OIDC_CLIENT_ID: z.string().min(1).optional(),
  FILTRATE_OIDC_CLIENT_SECRET: z.string().min(1).optional(),
  FILTRATE_OIDC_CLIENT_SECRET_FILE: z.string().min(1).optional(),
  FILTRATE_OIDC_SCOPE: z.string().min(1).default("openid profile"),
  FILTRATE_OIDC_ROLE_CLAIM: z.string().min(1).optional(),
  FILTRATE_OIDC_ROLE_MAP: z.string().min(1).optional(),
  FILTRATE_OIDC_ACR: z.string().min(1).optional(),
  FILTRATE_OIDC_FACTOR: z.enum(["provider", "ours"]).default("provider"),
  FILTRATE_TIME_ZONE: TimeZone.optional(),
  PORT: z.coerce.number().int().min(1).max(65535).default(3000),
})

export type Environment = {
  databaseUrl: string | undefined
  /** The site's own role on a Postgres where the owner of the tables may not make roles. */
  appDatabaseUrl?: string | undefined
  /** Handed to the site by what starts it, for the processes that it starts. */
  importDatabaseUrl?: string | undefined
  snapshotDatabaseUrl?: string | undefined
  dataDir: string
  isDemoWanted: boolean
  /** Where people reach the site, scheme and host, when that is not this machine alone. */
  origin: string | undefined
  /** The installation's key in base64url, where it is not kept in the data folder. */
  secretKey?: string | undefined
  /** A sorted file of SHA-1 hashes of passwords that are known to others. */
  breachedHashes?: string | undefined
  /** The clinic's own provider of identities, as written; absent where people sign in with passwords. */
  provider?: ProviderVariables | undefined
  timeZone: string | undefined
  port: number
}

export type ProviderVariables = {
  issuer: string
  clientId: string | undefined
  clientSecret: string | undefined
  clientSecretFile: string | undefined
  scope: string
  roleClaim: string | undefined
  roleMap: string | undefined
  acr: string | undefined
  factor: "provider" | "ours"
}

/** The environment, with `.env` of the working folder beneath it; read at each call so that tests and commands see the same. */
export function readEnvironment(source: NodeJS.ProcessEnv = process.env): Environment {
  const env = parseVariables(Env, source)
  return {
    databaseUrl: env.DATABASE_URL,
    appDatabaseUrl: env.FILTRATE_APP_DATABASE_URL,
    importDatabaseUrl: env.FILTRATE_IMPORT_DATABASE_URL,
    snapshotDatabaseUrl: env.FILTRATE_SNAPSHOT_DATABASE_URL,
    dataDir: path.resolve(env.FILTRATE_DATA),
    isDemoWanted: env.FILTRATE_DEMO === "on",
    origin: env.FILTRATE_ORIGIN,
    secretKey: env.FILTRATE_SECRET_KEY,
    breachedHashes: env.FILTRATE_BREACHED_HASHES,
    provider: providerOf(env),
    timeZone: env.FILTRATE_TIME_ZONE,
    port: env.PORT,
  }
}

/** Variables of the environment, with `.env` beneath it; throws AppError("bad-request") naming the one that cannot be used. */
export function parseVariables<Parsed>(
  schema: z.ZodType<Parsed>,
  source: NodeJS.ProcessEnv = process.env,
): Parsed {
  const parsed = schema.safeParse(withoutEmpty({ ...dotEnv(), ...source }))
  if (parsed.success) return parsed.data
  const issue = parsed.error.issues[0]
  throw new AppError("bad-request", `The variable ${issue?.path.join(".")} cannot be used: ${issue?.message}`)
}

export function machineTimeZone(): string {
  return Intl.DateTimeFormat().resolvedOptions().timeZone
}

function providerOf(env: z.infer<typeof Env>): ProviderVariables | undefined {
  if (env.FILTRATE_OIDC_ISSUER === undefined) return undefined
  return {
    issuer: env.FILTRATE_OIDC_ISSUER,
    clientId: env.FILTRATE_OIDC_CLIENT_ID,
    clientSecret: env.FILTRATE_OIDC_CLIENT_SECRET,
    clientSecretFile: env.FILTRATE_OIDC_CLIENT_SECRET_FILE,
    scope: env.FILTRATE_OIDC_SCOPE,
    roleClaim: env.FILTRATE_OIDC_ROLE_CLAIM,
    roleMap: env.FILTRATE_OIDC_ROLE_MAP,
    acr: env.FILTRATE_OIDC_ACR,
    factor: env.FILTRATE_OIDC_FACTOR,
  }
}

function dotEnv(): Record<string, string> {
  const file = path.resolve(".env")
  if (!existsSync(file)) return {}
  const entries = Object.entries(parseEnv(readFileSync(file, "utf8")))
  return Object.fromEntries(entries.flatMap(([key, value]) => (value === undefined ? [] : [[key, value]])))
}

function withoutEmpty(source: Record<string, string | undefined>): Record<string, string> {
  return Object.fromEntries(Object.entries(source).flatMap(([key, value]) => (value ? [[key, value]] : [])))
}

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name })
    return true
  } catch {
    return false
  }
}

function isOrigin(text: string): boolean {
  return /^https?:\/\//.test(text) && URL.canParse(text) && new URL(text).origin === text
}
