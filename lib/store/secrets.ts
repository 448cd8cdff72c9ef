import "server-only"
import { randomBytes } from "node:crypto"
import { linkSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import path from "node:path"
import { readEnvironment } from "../env"
import { AppError } from "../errors"

const keyBytes = 32

/**
 * The installation's own key, 32 bytes, which seals what the database may not show: that of FILTRATE_SECRET_KEY, else one
 * made at the first need and kept in the data folder for nobody but its user to read.
 * Throws AppError("start-failed") when it is there and cannot be used.
 */
export function siteKey(dataDir: string): Buffer {
  const given = readEnvironment().secretKey
  const key = Buffer.from(given ?? readOrMake(path.join(dataDir, "secret-key")), "base64url")
  if (key.length === keyBytes) return key
  const place = given === undefined ? "The file secret-key of the data folder" : "FILTRATE_SECRET_KEY"
  throw new AppError("start-failed", `${place} does not hold a key of 32 bytes in base64url.`)
}

/** Two processes may need it at the same moment: whoever links first has made it. */
function readOrMake(file: string): string {
  const known = read(file)
  if (known !== null) return known
  mkdirSync(path.dirname(file), { recursive: true })
  const draft = `${file}.${process.pid}`
  writeFileSync(draft, `${randomBytes(keyBytes).toString("base64url")}\n`, { mode: 0o600 })
  try {
    linkSync(draft, file)
  } catch (error) {
    if (!isCode(error, "EEXIST")) throw error
  } finally {
    rmSync(draft, { force: true })
  }
  return readFileSync(file, "utf8").trim()
}

function read(file: string): string | null {
  try {
    return readFileSync(file, "utf8").trim()
  } catch (error) {
    if (isCode(error, "ENOENT")) return null
    throw error
  }
}

function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && "code" in error && error.code === code
}
