import { readFileSync } from "node:fs"
import path from "node:path"
import PDFDocument from "pdfkit"

export const ink = {
  ink: "#1d2a36",
  soft: "#5c6670",
  rule: "#d9d4c7",
  accent: "#0b6a78",
  warm: "#9a5b13",
  sand: "#c9b18a",
  band: "#d7e4e6",
} as const

/** A4 in points, with the edges of what is set on it. */
export const paper = { width: 595.28, height: 841.89, left: 62, right: 539, top: 74, bottom: 780 } as const

export const contentWidth = paper.right - paper.left

/** Whole fonts: Latin with every accent, Greek, Cyrillic and Vietnamese. A document carries the letters it uses. */
const fontFiles = {
  serif: "source-serif/TTF/SourceSerif4-Regular.ttf",
  serifBold: "source-serif/TTF/SourceSerif4-Semibold.ttf",
  sans: "source-sans/TTF/SourceSans3-Regular.ttf",
  sansBold: "source-sans/TTF/SourceSans3-Semibold.ttf",
} as const

type FontName = keyof typeof fontFiles

const fontDir = path.resolve(process.cwd(), "node_modules")

/** A document being set: where the next thing goes, and the part of its structure that it belongs to. */
export type Sheet = {
  doc: PDFKit.PDFDocument
  y: number
  part: PDFKit.PDFStructureElement
  /** The page each named place came to stand on, from 1. */
  pages: Map<string, number>
  pageCount: number
  /** Where the page of a place is to be named once all is set. */
  awaited: { element: PDFKit.PDFStructureElement; place: string; page: number; y: number }[]
}

export type TextStyle = { font?: FontName; size?: number; colour?: string; gap?: number }

export function openSheet(about: { title: string; author: string; subject: string; madeAt: Date }): Sheet {
  const doc = new PDFDocument({
    size: "A4",
    margins: { top: paper.top, bottom: 0, left: paper.left, right: paper.width - paper.right },
    ...{ autoFirstPage: false, bufferPages: true, font: "", lang: "en", tagged: true, displayTitle: true },
    pdfVersion: "1.7",
    info: {
      ...{ Title: about.title, Author: about.author, Subject: about.subject, Creator: "Filtrate" },
      // The same input makes the same bytes, so no clock is read.
      ...{ CreationDate: about.madeAt, ModDate: about.madeAt },
    },
  })
  for (const [name, file] of Object.entries(fontFiles))
    doc.registerFont(name, readFileSync(path.join(fontDir, file)))
  const part = doc.struct("Document")
  doc.addStructure(part)
  const sheet = { doc, y: paper.top, part, pages: new Map<string, number>(), pageCount: 0, awaited: [] }
  turnPage(sheet)
  return sheet
}

export function turnPage(sheet: Sheet): void {
  sheet.doc.addPage()
  sheet.pageCount += 1
  sheet.y = paper.top
}

/** Goes to a new page where less than this is left. */
export function keepRoom(sheet: Sheet, height: number): void {
  if (sheet.y + height > paper.bottom) turnPage(sheet)
}

/** Notes that a named place stands here, for links and the contents. */
export function markPlace(sheet: Sheet, name: string): void {
  sheet.pages.set(name, sheet.pageCount)
  sheet.doc.addNamedDestination(name, "XYZ", 0, sheet.y - 12, 0)
}

/** Leaves room at the right edge for the page of a place; its turn in the order of reading is kept. */
export function awaitPage(sheet: Sheet, place: string): void {
  const element = sheet.doc.struct("P")
  sheet.part.add(element)
  sheet.awaited.push({ element, place, page: sheet.pageCount, y: sheet.y })
}

/** Names the pages that were awaited. */
export function namePages({ doc, awaited, pages }: Sheet): void {
  const width = 30
  for (const { element, place, page, y } of awaited) {
    doc.switchToPage(page - 1)
    element.add(() => {
      doc.font("sans").fontSize(9).fillColor(ink.ink)
      doc.text(String(pages.get(place) ?? ""), paper.right - width, y, {
        width,
        align: "right",
        lineBreak: false,
      })
    })
    element.end()
  }
}

export function heightOf(
  sheet: Sheet,
  text: string,
  { font = "sans", size = 9.5, gap = 1.5, width = contentWidth }: TextStyle & { width?: number },
): number {
  return sheet.doc.font(font).fontSize(size).heightOfString(composed(text), { width, lineGap: gap })
}

/** A letter and its accent typed apart as the one letter that the fonts have. */
export function composed(text: string): string {
  return text.normalize("NFC")
}

type Said = TextStyle & {
  tag?: "P" | "H1" | "H2" | "H3" | "LI" | "TD"
  x?: number
  width?: number
  align?: "left" | "right" | "center"
  goTo?: string
}

/** Sets a text at a place without moving on; the answer is its height. */
export function sayAt(sheet: Sheet, text: string, y: number, said: Said = {}): number {
  const { font = "sans", size = 9.5, colour = ink.ink, gap = 1.5, tag = "P" } = said
  const { x = paper.left, width = contentWidth, align = "left", goTo } = said
  const height = heightOf(sheet, text, { font, size, gap, width })
  sheet.part.add(
    sheet.doc.struct(tag, {}, () => {
      sheet.doc
        .font(font)
        .fontSize(size)
        .fillColor(colour)
        .text(composed(text), x, y, { width, align, lineGap: gap, ...(goTo === undefined ? {} : { goTo }) })
    }),
  )
  return height
}

/** Sets a text under what stands there, on a new page where it does not fit. */
export function say(sheet: Sheet, text: string, said: Said & { after?: number } = {}): void {
  const { x = paper.left, width = paper.right - x } = said
  keepRoom(sheet, heightOf(sheet, text, { ...said, width }))
  sheet.y += sayAt(sheet, text, sheet.y, { ...said, x, width }) + (said.after ?? 0)
}

/** A drawing with what it shows in words. */
export function draw(sheet: Sheet, alt: string, paint: (doc: PDFKit.PDFDocument) => void): void {
  sheet.part.add(
    sheet.doc.struct("Figure", { alt }, () => {
      sheet.doc.save()
      paint(sheet.doc)
      sheet.doc.restore()
    }),
  )
}

/** What only adorns the page, such as a rule or a running head. */
export function adorn(sheet: Sheet, paint: (doc: PDFKit.PDFDocument) => void): void {
  sheet.doc.markContent("Artifact", { type: "Layout" })
  sheet.doc.save()
  paint(sheet.doc)
  sheet.doc.restore()
  sheet.doc.endMarkedContent()
}

export function rule(sheet: Sheet, colour: string = ink.rule): void {
  const { y } = sheet
  adorn(sheet, (doc) =>
    doc.moveTo(paper.left, y).lineTo(paper.right, y).lineWidth(0.6).strokeColor(colour).stroke(),
  )
}

/** The bytes of the whole, once nothing more is set. */
export function closeSheet(sheet: Sheet): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const pieces: Uint8Array[] = []
    sheet.doc.on("data", (piece: Uint8Array) => pieces.push(piece))
    sheet.doc.on("end", () => resolve(Buffer.concat(pieces)))
    sheet.doc.on("error", reject)
    sheet.part.end()
    sheet.doc.end()
  })
}
