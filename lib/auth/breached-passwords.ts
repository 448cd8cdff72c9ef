import "server-only"
import { createHash } from "node:crypto"
import { open, type FileHandle } from "node:fs/promises"
import { AppError } from "../errors"

const hashCharacters = 40
const longestLine = 80

/**
 * Whether a password's SHA-1 is in a file of such hashes, sorted, one a line in hexadecimal (what follows a hash on its
 * line is passed over). Halves the file, so that its size does not matter. Throws AppError when it cannot be read.
 */
export async function isBreached(password: string, file: string): Promise<boolean> {
  const wanted = createHash("sha1").update(password, "utf8").digest("hex").toUpperCase()
  const handle = await open(file).catch((cause: unknown) => {
    throw new AppError("bad-request", "The file of FILTRATE_BREACHED_HASHES cannot be read.", { cause })
  })
  try {
    let low = 0
    let high = (await handle.stat()).size
    while (low < high) {
      const middle = Math.floor((low + high) / 2)
      const line = await lineFrom(handle, middle)
      if (line.hash === wanted) return true
      if (line.hash !== "" && line.hash < wanted) low = line.end
      else high = middle
    }
    return false
  } finally {
    await handle.close()
  }
}

/** The first whole line that begins at or after a place; an empty hash when there is none. */
async function lineFrom(handle: FileHandle, place: number): Promise<{ hash: string; end: number }> {
  const from = Math.max(0, place - 1)
  const { bytesRead, buffer } = await handle.read(Buffer.alloc(2 * longestLine), 0, 2 * longestLine, from)
  const text = buffer.toString("latin1", 0, bytesRead)
  const start = place === 0 ? 0 : text.indexOf("\n") + 1
  if (place > 0 && start === 0) return { hash: "", end: place }
  const end = text.indexOf("\n", start)
  const hash = text.slice(start, start + hashCharacters).toUpperCase()
  return { hash, end: from + (end === -1 ? bytesRead : end + 1) }
}
