import { existsSync, readdirSync, readFileSync, statSync } from "node:fs"
import path from "node:path"
import { afterEach, beforeEach, describe, expect, test } from "vitest"
import { receiveUpload } from "../../../app/_http/receive-upload"
import { temporaryFolder } from "../../helpers/temporary-folder"

let scratch: ReturnType<typeof temporaryFolder>
let zipPath: string

beforeEach(() => {
  scratch = temporaryFolder()
  zipPath = path.join(scratch.folder, "upload.zip")
})
afterEach(() => scratch.remove())

describe("an extract that is sent", () => {
  test("as a zip file is written as it came, with the form's choices", async () => {
    const bytes = Buffer.from([80, 75, 3, 4, 0, 255, 13, 10])
    const upload = await receive(form([["lowmoor.zip", bytes]], { full: "on" }))

    expect(upload).toEqual({
      uploadPath: zipPath,
      source: "lowmoor.zip",
      totalBytes: 8,
      fields: { full: "on" },
    })
    expect(readFileSync(zipPath)).toEqual(bytes)
    expect(statSync(zipPath).mode & 0o077).toBe(0)
  })

  test("as CSV files goes into one folder under their own names", async () => {
    const upload = await receive(
      form([
        ["readings.csv", "a,b\r\n1,2\r\n"],
        ["Größen 2026 (neu).CSV", "x"],
      ]),
    )
    const folder = path.join(scratch.folder, "upload")

    expect(upload).toMatchObject({ uploadPath: folder, source: "2 CSV files", totalBytes: 11 })
    expect(readdirSync(folder).sort()).toEqual(["Größen 2026 (neu).CSV", "readings.csv"])
    expect(readFileSync(path.join(folder, "readings.csv"), "utf8")).toBe("a,b\r\n1,2\r\n")
  })

  test("of many megabytes arrives whole", async () => {
    const large = Buffer.alloc(24_000_001, "0123456789")
    const upload = await receive(form([["labs.csv", large]]))

    expect(upload.totalBytes).toBe(large.length)
    expect(readFileSync(path.join(upload.uploadPath, "labs.csv")).equals(large)).toBe(true)
  })

  test("with a name that climbs out of its folder stays in it", async () => {
    const upload = await receive(rawForm('filename="../../../etc/readings.csv"', "x"))

    expect(readdirSync(upload.uploadPath)).toEqual(["readings.csv"])
  })
})

describe("a form that cannot be used leaves nothing behind", () => {
  test("when its files together are larger than what is taken in", async () => {
    const half = Buffer.alloc(12_600_000)
    const sent = form([
      ["labs.csv", half],
      ["readings.csv", half],
    ])

    await expect(receive(sent)).rejects.toThrow("At most 25 MB are taken in at once")

    expect(readdirSync(scratch.folder)).toEqual([])
  })

  test.each([
    ["another kind of file", form([["letter.pdf", "x"]]), "one zip file, or CSV files"],
    ["a hidden file", form([[".csv", "x"]]), "one zip file, or CSV files"],
    [
      "a zip among CSV files",
      form([
        ["readings.csv", "x"],
        ["a.zip", "y"],
      ]),
      "one zip file by itself",
    ],
    [
      "CSV files after a zip",
      form([
        ["a.zip", "y"],
        ["readings.csv", "x"],
      ]),
      "one zip file by itself",
    ],
    [
      "one file twice",
      form([
        ["readings.csv", "x"],
        ["readings.csv", "y"],
      ]),
      "was sent twice",
    ],
    ["no file", form([]), "No file was sent"],
    ["no form", new Request("http://127.0.0.1/", { method: "POST", body: "x" }), "No file was sent"],
    ["too many files", form(Array.from({ length: 40 }, (_, n) => [`part${n}.csv`, "x"])), "At most 30 files"],
  ])("%s", async (_title, request, words) => {
    await expect(receive(request)).rejects.toThrow(words)

    expect(readdirSync(scratch.folder)).toEqual([])
  })

  test("one that breaks off in the middle", async () => {
    const body = new ReadableStream({
      start(controller) {
        controller.enqueue(new TextEncoder().encode(head('filename="readings.csv"') + "half of it"))
        controller.error(new Error("connection reset"))
      },
    })

    await expect(receive(multipart(body))).rejects.toThrow("did not arrive whole")
    expect(existsSync(path.join(scratch.folder, "upload"))).toBe(false)
  })

  test("one that breaks off while a file before it is still being written, however often", async () => {
    const first = `${head('filename="readings.csv"')}a,b\r\n1,2\r\n`
    for (let round = 0; round < 300; round += 1) {
      const broken = multipart(
        `${first}--edge\r\ncontent-disposition: form-data; name="extract"\r\no\r\n\r\nx`,
      )

      await expect(receive(broken)).rejects.toThrow("did not arrive whole")
      expect(readdirSync(scratch.folder)).toEqual([])
    }
  })

  test("one with files after the part that cannot be read", async () => {
    const broken = '--edge\r\ncontent-disposition: form-data; name="extract"\r\no\r\n\r\nx\r\n'
    const sent = multipart(`${broken}${head('filename="readings.csv"')}a,b\r\n1,2\r\nand no end`)

    await expect(receive(sent)).rejects.toThrow("did not arrive whole")
    expect(readdirSync(scratch.folder)).toEqual([])
  })

  test("one that ends before its end", async () => {
    const request = multipart(head('filename="readings.csv"') + "half of it")

    await expect(receive(request)).rejects.toThrow("did not arrive whole")
    expect(readdirSync(scratch.folder)).toEqual([])
  })
})

function receive(request: Request) {
  return receiveUpload(request, { zipPath, mostBytes: 25_000_000 })
}

function form(
  files: readonly (readonly [string, string | Buffer])[],
  fields: Record<string, string> = {},
): Request {
  const body = new FormData()
  for (const [name, value] of Object.entries(fields)) body.set(name, value)
  for (const [name, content] of files)
    body.append("extract", new Blob([new Uint8Array(Buffer.from(content))]), name)
  const encoded = new Response(body)
  const contentType = encoded.headers.get("content-type") ?? ""
  return multipart(inPieces(encoded), contentType)
}

/** A form in pieces, as a connection brings it. The platform's own stream of a form is not to be stopped in the middle. */
function inPieces(encoded: Response): ReadableStream<Uint8Array> {
  const pieceBytes = 65_536
  let bytes: Uint8Array | null = null
  let from = 0
  return new ReadableStream({
    async pull(controller) {
      bytes ??= new Uint8Array(await encoded.arrayBuffer())
      if (from >= bytes.length) return controller.close()
      controller.enqueue(bytes.slice(from, from + pieceBytes))
      from += pieceBytes
    },
  })
}

function rawForm(disposition: string, content: string): Request {
  return multipart(`${head(disposition)}${content}\r\n--edge--\r\n`)
}

function head(disposition: string): string {
  return `--edge\r\ncontent-disposition: form-data; name="extract"; ${disposition}\r\n\r\n`
}

function multipart(
  body: string | ReadableStream,
  contentType = "multipart/form-data; boundary=edge",
): Request {
  const headers = { "content-type": contentType }
  return new Request("http://127.0.0.1/", { method: "POST", headers, body, ...{ duplex: "half" } })
}
