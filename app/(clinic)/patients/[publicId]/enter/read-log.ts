import type { TypedRow } from "../../../../../lib/import/typed-source"
import { pressureColumns, pressureField, readingsEach, sittingsUntil, timeField } from "./log-grid"

/** A row of the form, and the field that each column of the contract was typed in. */
export type FormRow = { cells: TypedRow; fieldOf: (column: string | null) => string; said: string }

/** A home-pressure log as it was typed, before anything is judged. */
export type TypedLog = { rows: FormRow[]; wrong: Record<string, string> }

/** The rows of the grid in which a pressure or a pulse stands. */
export function readGrid(typed: Readonly<Record<string, string>>, last: string): FormRow[] {
  return sittingsUntil(last).flatMap(({ place, day }) => {
    const time = (typed[timeField(place)] ?? "").trim()
    return Array.from({ length: readingsEach }, (_, reading): FormRow | null => {
      const field = (column: string) => pressureField(place, reading, column)
      const values = pressureColumns.map((column) => [column, (typed[field(column)] ?? "").trim()] as const)
      if (values.every(([, value]) => value === "")) return null
      return {
        cells: { ...Object.fromEntries(values), taken_at: momentOf(day, time, reading), setting: "home" },
        fieldOf: (column) => (column === "taken_at" || column === null ? timeField(place) : field(column)),
        said: "",
      }
    }).filter((row) => row !== null)
  })
}

/** The second reading of a sitting is kept half a minute after the first, so that both have a moment of their own. */
function momentOf(day: string, time: string, reading: number): string {
  return reading > 0 && /^\d\d:\d\d$/.test(time) ? `${day}T${time}:30` : `${day}T${time}`
}

/** A longer line is no reading; of many that are none the first are told. */
const longestLine = 100
const mostTold = 5

const lineShape = /^(\S+)[\sT]+(\S+)\s+([^\s/]+)\s*\/\s*([^\s/]+)(?:\s+(\S+))?$/

/** Lines like "2026-11-20 08:00 132/84", with the pulse after it where it was counted. */
export function readLines(text: string): TypedLog {
  const rows: FormRow[] = []
  const unread: number[] = []
  text.split(/\r?\n/).forEach((line, index) => {
    if (line.trim() === "") return
    const parts = line.length > longestLine ? null : lineShape.exec(line.trim())
    if (parts === null) return unread.push(index + 1)
    const [, day = "", time = "", systolic = "", diastolic = "", pulse = ""] = parts
    return rows.push({
      cells: { taken_at: `${day}T${time}`, systolic, diastolic, pulse, setting: "home" },
      fieldOf: () => "lines",
      said: `line ${index + 1}: `,
    })
  })
  const words = unread
    .slice(0, mostTold)
    .map((line) => `line ${line} is not a day, a time and a pressure, like ${exampleLine}`)
  return { rows, wrong: words.length === 0 ? {} : { lines: words.join("; ") } }
}

export const exampleLine = "2026-11-20 08:00 132/84"
