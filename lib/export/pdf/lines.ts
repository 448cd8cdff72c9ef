import { heightOf, keepRoom, sayAt, type Sheet, type TextStyle } from "./sheet"

/** A text within its column. */
export type Cell = TextStyle & {
  text: string
  x: number
  width: number
  align?: "left" | "right"
  goTo?: string
}

/** Cells that stand side by side, and the room beneath them. */
export type Line = { cells: readonly Cell[]; after: number }

/** How high the lines stand, one under the other. */
export function heightOfLines(sheet: Sheet, lines: readonly Line[]): number {
  return lines.reduce((sum, line) => sum + heightOfLine(sheet, line) + line.after, 0)
}

/** Sets lines from `y` down without moving on; the answer is where they end. */
export function setLines(sheet: Sheet, lines: readonly Line[], y: number): number {
  return lines.reduce((at, line) => {
    for (const { text, ...said } of line.cells) sayAt(sheet, text, at, said)
    return at + heightOfLine(sheet, line) + line.after
  }, y)
}

/** Sets lines under what stands there and moves on; they may run over a page, one after the other. */
export function setEach(sheet: Sheet, lines: readonly Line[]): void {
  for (const line of lines) {
    keepRoom(sheet, heightOfLine(sheet, line))
    sheet.y = setLines(sheet, [line], sheet.y)
  }
}

function heightOfLine(sheet: Sheet, { cells }: Line): number {
  return Math.max(...cells.map(({ text, ...style }) => heightOf(sheet, text, style)))
}
