import { buffer } from "node:stream/consumers"
import { ZipFile } from "yazl"

/** A zip file with these entries. */
export async function zipOf(
  entries: Record<string, string | Buffer>,
  options: { compress?: boolean; mode?: number } = {},
): Promise<Buffer> {
  const zip = new ZipFile()
  for (const [name, content] of Object.entries(entries))
    zip.addBuffer(Buffer.from(content), name, { compress: true, ...options })
  zip.end()
  return buffer(zip.outputStream)
}

/** The same file with some bytes replaced, all of them, by as many others: what no honest tool writes. */
export function forge(zip: Buffer, from: string, to: string): Buffer {
  if (from.length !== to.length) throw new RangeError("a forgery must keep the length")
  return Buffer.from(zip.toString("latin1").replaceAll(from, to), "latin1")
}
