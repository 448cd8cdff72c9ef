import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs"
import { z } from "zod"

export type ReadPdf = { pages: string[]; title: string; language: string | null; bookmarks: string[] }

const Info = z.object({ Title: z.string(), Language: z.string().nullable() })
/** None in a document without bookmarks. */
const Outline = z.array(z.object({ title: z.string() })).nullable()
const Piece = z.object({ str: z.string() })

/** What a reader that others wrote finds in a PDF: the words of each page in order, spaces made one. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 })
  const document = await task.promise
  const pages: string[] = []
  for (let number = 1; number <= document.numPages; number += 1) {
    const content = await (await document.getPage(number)).getTextContent()
    const pieces = content.items.flatMap((piece) => Piece.safeParse(piece).data?.str ?? [])
    pages.push(pieces.join(" ").replace(/[\s\u00a0]+/g, " "))
  }
  const { info } = await document.getMetadata()
  const outline = Outline.parse(await document.getOutline()) ?? []
  const { Title, Language } = Info.parse(info)
  await task.destroy()
  return { pages, title: Title, language: Language, bookmarks: outline.map((one) => one.title) }
}
