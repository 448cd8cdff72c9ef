import { crc32 } from "node:zlib"
import yauzl, { type Entry, type ZipFile } from "yauzl"
import { AppError } from "../errors"
import { refused, sortNames, type Source, type SourceFile } from "./source"

/** Text compresses to a tenth, a very regular table to a hundredth; what shrinks more is made to fill a disk. */
const highestRatio = 250
const ratioAllowedBytes = 10_000_000
const largestTotal = 64 * 2 ** 30
const mostEntries = 1000

/** Opens a zip file of an extract, in which the files may lie in one folder. Nothing is unpacked to disk. */
export async function openZip(location: string): Promise<Source> {
  const zip = await yauzl.openPromise(location, { autoClose: false }).catch((cause: unknown) => {
    throw refused("The file is neither a folder nor a zip file that can be read.", cause)
  })
  try {
    const entries = await readEntries(zip)
    const { nameByKind, ignored } = sortNames([...entries.keys()])
    const folders = new Set([...nameByKind.values()].map((name) => name.slice(0, name.lastIndexOf("/") + 1)))
    if (folders.size > 1)
      throw refused("The files of the extract lie in more than one folder of the zip file.")
    const files = [...nameByKind].flatMap(([kind, name]): SourceFile[] => {
      const entry = entries.get(name)
      if (!entry) return []
      return [{ kind, size: entry.uncompressedSize, open: async () => readEntry(zip, entry) }]
    })
    return { files, ignored, close: async () => zip.close() }
  } catch (error) {
    zip.close()
    throw error
  }
}

/** The files that lie at the top or in one folder; a path that climbs out, or a size that no table has, ends it all. */
async function readEntries(zip: ZipFile): Promise<Map<string, Entry>> {
  const entries = new Map<string, Entry>()
  if (zip.entryCount > mostEntries) throw refused(`The zip file has more than ${mostEntries} files.`)
  let total = 0
  try {
    for await (const entry of zip.eachEntry()) {
      const name = entry.fileName
      if (name.endsWith("/") || name.split("/").length > 2) continue
      if (isLink(entry)) throw refused("The zip file holds a link to another file.")
      if (entry.isEncrypted()) throw refused("The zip file is protected by a password.")
      const isBomb =
        entry.uncompressedSize > ratioAllowedBytes &&
        entry.uncompressedSize > highestRatio * entry.compressedSize
      total += entry.uncompressedSize
      if (isBomb || total > largestTotal) throw refused("The zip file would unpack to an impossible size.")
      if (entries.has(name)) throw refused("The zip file has two files of the same name.")
      entries.set(name, entry)
    }
  } catch (cause) {
    if (cause instanceof AppError) throw cause
    throw refused("The zip file is damaged, or holds paths that lead out of its own folder.", cause)
  }
  return entries
}

/** Unix writes the kind of a file into the upper half of the attributes. */
function isLink(entry: Entry): boolean {
  return ((entry.externalFileAttributes >>> 16) & 0o170000) === 0o120000
}

/** The bytes of a file, held against the checksum that was written with it. */
async function* readEntry(zip: ZipFile, entry: Entry): AsyncGenerator<Buffer> {
  let checksum = 0
  try {
    for await (const chunk of await zip.openReadStreamPromise(entry)) {
      const bytes = Buffer.from(chunk)
      checksum = crc32(bytes, checksum)
      yield bytes
    }
  } catch (cause) {
    throw refused("The zip file is damaged.", cause)
  }
  if (checksum !== entry.crc32) throw refused("The zip file is damaged.")
}
