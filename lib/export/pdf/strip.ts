import { numbered } from "../../speech/format"
import type { StandingLook } from "../../speech/measure-words"
import { draw, ink, paper, sayAt, type Sheet } from "./sheet"

type Part = { words: string; number: number; look: StandingLook }

const height = 7

type Strip = { parts: readonly Part[]; x: number; width: number }

/** How high a strip stands with its words, which run over two lines where there are many. */
export function heightOfStrip(sheet: Sheet, { parts, width }: Strip): number {
  const words = parts.filter((part) => part.number > 0).map((part) => numbered(part.number, part.words))
  sheet.doc.font("sans").fontSize(8.5)
  const length = words.reduce((sum, one) => sum + sheet.doc.widthOfString(one) + 24, 0)
  return height + 19 + 12 * Math.floor(length / width)
}

/** Where people stand as one thin strip, with each count in words under it; what was not measured is hatched. */
export function drawStrip(sheet: Sheet, { parts, ...place }: Strip): void {
  const present = parts.filter((part) => part.number > 0)
  const total = present.reduce((sum, part) => sum + part.number, 0)
  if (total === 0) return
  const top = sheet.y
  draw(sheet, present.map((part) => numbered(part.number, part.words)).join(", "), (doc) => {
    let x = place.x
    for (const part of present) {
      const width = (place.width * part.number) / total
      paint(doc, part.look, { x, y: top, width: Math.max(0.4, width - 0.8) })
      x += width
    }
  })
  sheet.y = top + height + 5
  let x = place.x
  for (const part of present) {
    const words = numbered(part.number, part.words)
    const width = sheet.doc.font("sans").fontSize(8.5).widthOfString(words) + 24
    if (x > place.x && x + width > paper.right) {
      x = place.x
      sheet.y += 12
    }
    const [swatchX, y] = [x, sheet.y]
    draw(sheet, part.words, (doc) => paint(doc, part.look, { x: swatchX, y: y + 2, width: 9 }))
    sayAt(sheet, words, y, { x: x + 13, width, size: 8.5, gap: 0 })
    x += width
  }
  sheet.y += 14
}

function paint(
  doc: PDFKit.PDFDocument,
  look: StandingLook,
  at: { x: number; y: number; width: number },
): void {
  const { x, y, width } = at
  if (look === "reached") doc.rect(x, y, width, height).fill(ink.accent)
  if (look === "unreached") doc.rect(x, y, width, height).fill(ink.sand)
  if (look === "pale") doc.rect(x, y, width, height).lineWidth(0.5).fillAndStroke("#f3efe4", ink.soft)
  if (look !== "hatched") return
  doc.save()
  doc.rect(x, y, width, height).clip()
  doc.lineWidth(0.6).strokeColor(ink.ink)
  for (let from = x - height; from < x + width; from += 3)
    doc.moveTo(from, y + height).lineTo(from + height, y)
  doc.stroke()
  doc.restore()
  doc.rect(x, y, width, height).lineWidth(0.4).strokeColor(ink.soft).stroke()
}
