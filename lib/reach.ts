import { isIP } from "node:net"
import { z } from "zod"
import { Origin, parseVariables } from "./env"
import { AppError } from "./errors"
import { ownOrigins } from "./front/origins.mjs"
import { isLoopback, trustedPeers } from "./front/peers.mjs"

const Host = z
  .string()
  .refine(
    (host) => isLoopback(host) || isIP(host) !== 0,
    "is not an address to listen on, for example 0.0.0.0",
  )

const Peers = z
  .string()
  .refine(arePeers, "is no list of addresses and networks, for example 10.0.0.5, 10.1.0.0/16")

const Reach = z.object({
  FILTRATE_ORIGIN: Origin.optional(),
  FILTRATE_HOST: Host.default("127.0.0.1"),
  FILTRATE_TRUST_PROXY: Peers.default(""),
  FILTRATE_UPLOAD_LIMIT: z.coerce
    .number()
    .int()
    .min(1_000_000)
    .default(2 * 2 ** 30),
  FILTRATE_EXPORTS_PER_HOUR: z.coerce.number().int().min(1).default(60),
  PORT: z.coerce.number().int().default(3000),
})

/** How the site is reached, by whom, and how much it takes in. */
export type Reach = {
  /** Where people reach the site, scheme and host, when that is not this machine alone. */
  origin: string | undefined
  host: string
  /** Who may say on whose behalf they ask. */
  trustedProxies: string
  uploadLimitBytes: number
  exportsPerHour: number
  /** Every origin that is the site's own. */
  ownOrigins: readonly string[]
}

/** Throws AppError("bad-request") where a variable cannot be used, or would put the site into the open without HTTPS. */
export function readReach(source: NodeJS.ProcessEnv = process.env): Reach {
  const env = parseVariables(Reach, source)
  const origin = env.FILTRATE_ORIGIN
  if (!isLoopback(env.FILTRATE_HOST) && !origin?.startsWith("https://"))
    throw new AppError(
      "bad-request",
      `FILTRATE_HOST=${env.FILTRATE_HOST} would let other machines in. Name the HTTPS address by which people reach the site in FILTRATE_ORIGIN, for example FILTRATE_ORIGIN=https://filtrate.example.org`,
    )
  return {
    origin,
    host: env.FILTRATE_HOST,
    trustedProxies: env.FILTRATE_TRUST_PROXY,
    uploadLimitBytes: env.FILTRATE_UPLOAD_LIMIT,
    exportsPerHour: env.FILTRATE_EXPORTS_PER_HOUR,
    ownOrigins: ownOrigins({ origin, port: env.PORT }),
  }
}

function arePeers(words: string): boolean {
  try {
    trustedPeers(words)
    return true
  } catch {
    return false
  }
}
