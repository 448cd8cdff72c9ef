import { createReadStream } from "node:fs"
import { readdir, stat } from "node:fs/promises"
import path from "node:path"
import { factKinds, type FactKind } from "../domain/fact-kinds"
import { AppError } from "../errors"
import { openZip } from "./zip-source"

/** Small, so that between chunks the bytes of the last one can leave. */
const chunkSize = 1 << 16

/** One of the ten files as it lies in the extract; it can be read more than once. */
export type SourceFile = { kind: FactKind; size: number; open: () => Promise<AsyncIterable<Buffer>> }

/** An extract that has been opened: its files in the order in which they are imported. */
export type Source = {
  files: SourceFile[]
  /** Names of files that are none of the ten. */
  ignored: string[]
  close: () => Promise<void>
}

/** Opens the folder or the zip file of an extract, or says why it is none. */
export async function openSource(location: string): Promise<Source> {
  const found = await stat(location).catch(() => null)
  if (!found) throw refused("There is no such folder or file.")
  if (found.isFile()) return openZip(location)
  if (found.isDirectory()) return openFolder(location)
  throw refused("The extract must be a folder or a zip file.")
}

async function openFolder(folder: string): Promise<Source> {
  const entries = await readdir(folder, { withFileTypes: true })
  const names = entries.map((entry) => entry.name)
  const { nameByKind, ignored } = sortNames(names)
  const files: SourceFile[] = []
  for (const [kind, name] of nameByKind) {
    const file = path.join(folder, name)
    const found = await stat(file)
    if (!found.isFile()) throw refused(`${kind}.csv is not a file.`)
    files.push({ kind, size: found.size, open: async () => readChunks(file, `${kind}.csv`) })
  }
  return { files, ignored, close: async () => {} }
}

async function* readChunks(file: string, name: string): AsyncGenerator<Buffer> {
  try {
    yield* createReadStream(file, { highWaterMark: chunkSize })
  } catch (cause) {
    throw refused(`${name} cannot be read.`, cause)
  }
}

/** Which of the names are the ten files (any case), in the order of import; throws when there is none, or one twice. */
export function sortNames(names: readonly string[]): {
  nameByKind: Map<FactKind, string>
  ignored: string[]
} {
  const nameByKind = new Map<FactKind, string>()
  for (const kind of factKinds) {
    const found = names.filter((name) => path.posix.basename(name).toLowerCase() === `${kind}.csv`)
    if (found.length > 1) throw refused(`${kind}.csv is there ${found.length} times.`)
    if (found[0] !== undefined) nameByKind.set(kind, found[0])
  }
  if (nameByKind.size === 0) {
    const all = factKinds.map((kind) => `${kind}.csv`).join(", ")
    throw refused(`None of the files of an extract is there. They are called ${all}.`)
  }
  const used = new Set(nameByKind.values())
  return { nameByKind, ignored: names.filter((name) => !used.has(name) && !isSystemFile(name)).sort() }
}

export function refused(personMessage: string, cause?: unknown): AppError {
  return new AppError("import-refused", `${personMessage} Nothing was imported.`, { cause })
}

function isSystemFile(name: string): boolean {
  return name.split("/").some((part) => part.startsWith(".") || part === "__MACOSX")
}
