import { createWriteStream } from "node:fs"
import { mkdir, rm } from "node:fs/promises"
import path from "node:path"
import type { Readable } from "node:stream"
import { pipeline } from "node:stream/promises"
import busboy from "busboy"
import { AppError } from "../../lib/errors"

/** An extract as it was sent: one zip file, or a folder of CSV files. */
export type ReceivedUpload = {
  fields: Readonly<Record<string, string>>
  uploadPath: string
  source: string
  totalBytes: number
}

const csvName = /^[\p{L}\p{N}][\p{L}\p{N} ._()-]{0,100}\.csv$/iu
const mostFiles = 30

/**
 * Writes a multipart form's files to disk as they come, whatever their size. `zipPath` is where a zip file goes; several CSV
 * files go into the folder of the same name. What has been written is removed when the form cannot be used.
 * Throws AppError("bad-request"), AppError("too-large") or AppError("disk-full").
 */
export async function receiveUpload(
  request: Request,
  { zipPath, mostBytes }: { zipPath: string; mostBytes: number },
): Promise<ReceivedUpload> {
  const folder = zipPath.replace(/\.zip$/, "")
  const names: string[] = []
  const upload = { fields: new Map<string, string>(), names, totalBytes: 0 }
  try {
    const sent = { request, mostBytes, fields: upload.fields }
    await parseForm(sent, async (name, stream) => {
      const target = await placeFor(name, { zipPath, folder, names: upload.names })
      // Nobody is told of a stream that was closed before: a pipeline of it would never end.
      if (stream.destroyed) throw new Error("the form broke off")
      stream.on("data", (chunk: Buffer) => (upload.totalBytes += chunk.length))
      await pipeline(stream, createWriteStream(target, { mode: 0o600, flags: "wx" }))
    })
    const [first, ...others] = upload.names
    if (first === undefined) throw new AppError("bad-request", "No file was sent.")
    return {
      fields: Object.fromEntries(upload.fields),
      uploadPath: isZip(first) ? zipPath : folder,
      source: others.length === 0 ? first : `${upload.names.length} CSV files`,
      totalBytes: upload.totalBytes,
    }
  } catch (error) {
    await Promise.all([zipPath, folder].map((place) => rm(place, { recursive: true, force: true })))
    throw uploadFailure(error)
  }
}

/** Feeds the form to the parser piece by piece and waits until every file is written. */
async function parseForm(
  { request, mostBytes, fields }: { request: Request; mostBytes: number; fields: Map<string, string> },
  write: (name: string, stream: Readable) => Promise<void>,
): Promise<void> {
  const contentType = request.headers.get("content-type") ?? ""
  if (!request.body || !contentType.startsWith("multipart/form-data"))
    throw new AppError("bad-request", "No file was sent.")
  const form = busboy({
    headers: { "content-type": contentType },
    defParamCharset: "utf8",
    limits: { files: mostFiles, fields: 10, fieldSize: 1000, parts: mostFiles + 10 },
  })
  const writes: Promise<void>[] = []
  const streams: Readable[] = []
  let failure: unknown = null
  form.on("field", (name, value) => fields.set(name, value))
  form.on(
    "filesLimit",
    () => (failure ??= new AppError("bad-request", `At most ${mostFiles} files at once.`)),
  )
  form.on("file", (_field, stream, info) => {
    // A form that breaks off fails its files too, at a time when nobody else listens; the form's own failure is told.
    stream.on("error", () => {})
    streams.push(stream)
    const written = write(info.filename ?? "", stream).catch((error: unknown) => {
      failure ??= error
      stream.resume()
    })
    writes.push(written)
  })
  try {
    await pipeline(chunks(request.body, { mostBytes, failure: () => failure }), form)
  } catch (error) {
    // The parser leaves files of a form that broke off open, and hands out some after it failed.
    for (const stream of streams) stream.destroy()
    throw error
  } finally {
    // Also of a form that broke off: what is still being written would come into a folder that is being removed.
    await Promise.all(writes)
  }
  if (failure !== null) throw failure
}

/** The body's pieces; once something has failed, or more came than is taken in, no more is read. */
async function* chunks(
  body: ReadableStream<Uint8Array>,
  { mostBytes, failure }: { mostBytes: number; failure: () => unknown },
): AsyncGenerator<Uint8Array> {
  const reader = body.getReader()
  let bytes = 0
  try {
    for (;;) {
      const { done, value } = await reader.read()
      if (done) return
      if (failure() !== null) throw failure()
      bytes += value.length
      if (bytes > mostBytes) throw tooLarge(mostBytes)
      yield value
    }
  } finally {
    await reader.cancel().catch(() => {})
  }
}

async function placeFor(
  sent: string,
  upload: { zipPath: string; folder: string; names: string[] },
): Promise<string> {
  const name = path.posix.basename(sent.replaceAll("\\", "/")).trim()
  const isAlone = upload.names.length === 0
  if (!isZip(name) && !csvName.test(name))
    throw new AppError("bad-request", "An extract is one zip file, or CSV files such as readings.csv.")
  if (upload.names.some(isZip) || (isZip(name) && !isAlone))
    throw new AppError("bad-request", "Send one zip file by itself, or CSV files without one.")
  if (upload.names.includes(name)) throw new AppError("bad-request", `${name} was sent twice.`)
  upload.names.push(name)
  if (isZip(name)) return upload.zipPath
  await mkdir(upload.folder, { recursive: true, mode: 0o700 })
  return path.join(upload.folder, name)
}

function tooLarge(mostBytes: number): AppError {
  const megabytes = Math.floor(mostBytes / 1_000_000)
  return new AppError("too-large", `At most ${megabytes} MB are taken in at once. Nothing was stored.`)
}

function isZip(name: string): boolean {
  return /\.zip$/i.test(name)
}

function uploadFailure(error: unknown): unknown {
  if (error instanceof AppError) return error
  if (error instanceof Error && "code" in error && error.code === "ENOSPC")
    return new AppError("disk-full", "There is no room left on the disk. Nothing was stored.", {
      cause: error,
    })
  return new AppError("bad-request", "The file did not arrive whole. Nothing was stored; send it again.", {
    cause: error,
  })
}
