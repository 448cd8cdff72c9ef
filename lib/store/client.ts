import "server-only"
import { PrismaPg } from "@prisma/adapter-pg"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { PrismaClient } from "./generated/client"

/** A Prisma client of its own for a command or a test; end it with `$disconnect`. */
export function openClient(url: string): PrismaClient {
  return new PrismaClient({ adapter: new PrismaPg({ connectionString: url, max: 5 }) })
}

declare global {
  var filtrateStore: PrismaClient | undefined
}

/** The site's one Prisma client, shared by every bundle of the process. */
export function store(): PrismaClient {
  globalThis.filtrateStore ??= openClient(siteDatabaseUrl())
  return globalThis.filtrateStore
}

/** The database the site was started with: `npm start` and `npm run dev` hand it down. */
export function siteDatabaseUrl(): string {
  const url = readEnvironment().databaseUrl
  if (url) return url
  throw new AppError("store-unavailable", "The site has no database. Start it with npm start or npm run dev.")
}
