import type { CellObject } from "write-excel-file/node"

/** A cell with its type said, so that a spreadsheet guesses nothing; null is an empty one. */
export type XlsxCell = CellObject | null

/** The most letters a cell of a workbook holds. */
const longestText = 32_767

/** Text stays text whatever it begins with: a cell of this type is never run as a formula. */
export function text(words: string | null, style: CellObject = {}): XlsxCell {
  if (words === null || words === "") return null
  const whole = words.slice(0, longestText).replace(/[\uD800-\uDBFF]$/, "")
  return { ...style, type: String, value: whole }
}

/** The head of a column, or a line that heads what follows. */
export function head(words: string): XlsxCell {
  return text(words, { fontWeight: "bold", wrap: true, alignVertical: "bottom" })
}

/** Words that may run over several lines within their column. */
export function prose(words: string | null): XlsxCell {
  return text(words, { wrap: true, alignVertical: "top" })
}

export function whole(value: number | null): XlsxCell {
  return numeric(value, "#,##0")
}

export function decimal(value: number | null): XlsxCell {
  return numeric(value, "0.0")
}

/** A ratio in 0..1, read as a percentage. */
export function share(ratio: number | null): XlsxCell {
  return numeric(ratio, "0.0%")
}

/** A difference of ratios, read in points. */
export function pointsCell(difference: number | null): XlsxCell {
  return numeric(difference === null ? null : difference * 100, "+0.0;-0.0;0.0")
}

/** "2026-10-31" as a day that a spreadsheet sorts and counts with. */
export function day(plainDate: string | null): XlsxCell {
  if (plainDate === null) return null
  return { type: Date, value: new Date(`${plainDate}T00:00:00Z`), format: "d mmm yyyy", align: "left" }
}

function numeric(value: number | null, format: string): XlsxCell {
  return value === null ? null : { type: Number, value, format }
}
