import { dayFromText, type Day } from "./day"
import { exactFromText, type Exact } from "./exact"
import { momentFromText, type Moment } from "./instant"

/** Thrown by a cell that cannot be read; the row is then left out and counted, nothing else is. */
export class RowRejected extends Error {}

/** Reads the cells of one row by column name; an empty cell is null, an unreadable one rejects the row. */
export type Cells = ReturnType<typeof cellsOf>

export function cellsOf(row: Record<string, string>, timeZone: string, importDay: Day) {
  function text(column: string): string | null {
    return row[column] || null
  }
  function read<Value>(column: string, parse: (text: string) => Value | null): Value | null {
    const written = text(column)
    if (written === null) return null
    const value = parse(written)
    if (value === null) throw new RowRejected(`${column} cannot be read`)
    return value
  }
  function word(column: string, words: readonly string[]): string | null {
    return read(column, (written) => words.find((each) => each === written.toLowerCase()) ?? null)
  }
  /** A date on which something happened: at the latest the day after the import. */
  function eventDate(column: string): Day | null {
    const value = read(column, dayFromText)
    if (value !== null && value > importDay + 1) throw new RowRejected(`${column} lies in the future`)
    return value
  }
  function eventTime(column: string): Moment | null {
    const value = read(column, (written) => momentFromText(written, timeZone))
    if (value !== null && value.day > importDay + 1) throw new RowRejected(`${column} lies in the future`)
    return value
  }
  return {
    text,
    word,
    eventDate,
    eventTime,
    date: (column: string) => read(column, dayFromText),
    time: (column: string) => read(column, (written) => momentFromText(written, timeZone)),
    number: (column: string) => read(column, exactFromText),
    positive(column: string): Exact | null {
      const value = read(column, exactFromText)
      if (value && value.over <= 0n) throw new RowRejected(`${column} must be above 0`)
      return value
    },
    yesOrNo: (column: string) => read(column, yesOrNoFromText),
  }
}

/** Rejects the row when a required cell is empty. */
export function required<Value>(value: Value | null, column: string): Value {
  if (value === null) throw new RowRejected(`${column} is empty`)
  return value
}

export function rejectIfBefore(end: Day | null, start: Day | null): void {
  if (end !== null && start !== null && end < start) throw new RowRejected("the end lies before the start")
}

function yesOrNoFromText(text: string): boolean | null {
  const word = text.toLowerCase()
  if (["true", "yes", "1"].includes(word)) return true
  if (["false", "no", "0"].includes(word)) return false
  return null
}
