import "server-only"
import pg from "pg"
import { migrate } from "../../prisma/migrate"
import { machineTimeZone, readEnvironment, type Environment } from "../env"
import { AppError } from "../errors"
import { openClient } from "./client"
import { ensureClinic } from "./clinic"
import { ensureDatabaseRoles, type RoleUrls } from "./database-roles"
import { openEmbedded, type OpenDatabase as Opened } from "./embedded"

/** `url` is that of the owner of the tables, or of whatever role DATABASE_URL names; `urls` are those of the roles beside it. */
export type OpenDatabase = Opened & { urls: RoleUrls }

/**
 * Opens the record store with its tables up to date: the Postgres of DATABASE_URL, else the embedded one.
 * `close` must be called; the last to close stops the embedded server.
 */
export async function openDatabase(
  options: { environment?: Environment; say?: (line: string) => void } = {},
): Promise<OpenDatabase> {
  const { environment = readEnvironment(), say = () => {} } = options
  const database = environment.databaseUrl
    ? await openOwn(environment.databaseUrl)
    : await openEmbedded({ dataDir: environment.dataDir, say })
  try {
    const applied = await migrate(database.url)
    if (applied.length > 0) say(`Prepared the tables: ${applied.join(", ")}`)
    await prepareClinic(database.url, environment.timeZone)
    const { dataDir, appDatabaseUrl: appUrl } = environment
    return { ...database, urls: await ensureDatabaseRoles({ url: database.url, dataDir, appUrl }) }
  } catch (error) {
    await database.close()
    throw error
  }
}

async function prepareClinic(url: string, asked: string | undefined): Promise<void> {
  const client = openClient(url)
  try {
    await ensureClinic(client, { asked, machine: machineTimeZone() })
  } finally {
    await client.$disconnect()
  }
}

async function openOwn(url: string): Promise<Opened> {
  try {
    const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 10_000 })
    await client.connect()
    await client.end()
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : "unknown"
    throw new AppError("store-unavailable", `The Postgres of DATABASE_URL cannot be reached: ${reason}`, {
      cause,
    })
  }
  return { url, close: async () => {} }
}
