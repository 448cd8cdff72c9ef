import "server-only"
import pg from "pg"
import { AppError } from "../errors"

/** One plain connection for COPY and long transactions; end it with `end()`. */
export async function connect(databaseUrl: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: databaseUrl })
  // A connection that breaks between two queries must not end the process; the next query says so.
  client.on("error", () => {})
  await client.connect()
  return client
}

const diskFull = new Set(["53100", "ENOSPC"])
const serverGone = new Set(["57P01", "57P02", "57P03", "ECONNRESET", "ECONNREFUSED", "EPIPE"])

/** What stopped an import, in words for a person where the cause lies outside the program. */
export function importFailure(error: unknown): unknown {
  if (error instanceof AppError || !(error instanceof Error)) return error
  const code = "code" in error && typeof error.code === "string" ? error.code : ""
  if (diskFull.has(code))
    return new AppError(
      "disk-full",
      "The disk is full. Nothing was stored and nothing was lost; make room and start the import again.",
      { cause: error },
    )
  if (serverGone.has(code) || /connection (terminated|ended)|not queryable/i.test(error.message))
    return new AppError(
      "store-unavailable",
      "The database stopped while the import was running. Nothing was stored; start the import again.",
      { cause: error },
    )
  return error
}
