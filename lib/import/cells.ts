import { textOfDay, dayFromText, type Day } from "./calendar"
import type { ClinicClock } from "./clinic-clock"
import { decimalFromText, type Decimal } from "./decimals"
import { unitSeparator } from "./fact-hash"
import { remember } from "./remember"
import { longestShownValue, type Problem, type ProblemCode } from "./problems"
import { momentFromText, type Moment } from "./times"

const yes = new Set(["true", "yes", "1"])
const no = new Set(["false", "no", "0"])
const longestId = 200
const languageOf = remember(canonicalLanguage)
const noMoment: Moment = { instant: 0, day: 0, isDateOnly: false }

/** Which fact a row is: its own id, or the parts of its natural key as parsed values. */
export type FactKey = { id: string } | { parts: readonly (string | number | null)[] }

/** What is known about the row being read. */
export type RowState = {
  problem: Problem | null
  key: FactKey | null
  isRetracted: boolean
  /** Days on which something happened, to be held against the import day and the patient's birth. */
  events: { column: string; day: Day }[]
}

type DatedCell = { column: string; day: Day | null }

export type Cells = ReturnType<typeof createCells>

/**
 * Reads the cells of one row after another by column name. The first thing wrong with a row is kept as its `problem`;
 * reading goes on with a stand-in, and the row is dropped in the end.
 */
export function createCells(options: { indexByColumn: ReadonlyMap<string, number>; clock: ClinicClock }) {
  const { indexByColumn, clock } = options
  const row: RowState = { problem: null, key: null, isRetracted: false, events: [] }
  let fields: readonly string[] = []

  const cells = {
    row,
    load(next: readonly string[]): void {
      fields = next
      row.problem = null
      row.key = null
      row.events.length = 0
      row.isRetracted = cells.yesOrNo("retracted") ?? false
    },
    reject(column: string, code: ProblemCode, message: string): void {
      row.problem ??= { column, value: raw(column).slice(0, longestShownValue), code, message }
    },
    /** Settles which fact the row is. True when no more need be read: a retraction, or a row already known to be bad. */
    identify(key: FactKey): boolean {
      if (row.problem) return true
      row.key = key
      return row.isRetracted
    },
    raw,
    text(column: string): string | null {
      const value = raw(column)
      if (isUnkeepable(value)) cells.reject(column, "unreadable", "holds a control character")
      return value === "" ? null : value
    },
    id(column: string): string | null {
      const value = cells.text(column)
      if (value !== null && value.length > longestId)
        cells.reject(column, "unreadable", `is longer than ${longestId} characters`)
      return value
    },
    word<Word extends string>(column: string, words: readonly Word[]): Word | null {
      const value = raw(column)
      if (value === "") return null
      const lower = value.toLowerCase()
      const word = words.find((each) => each === lower)
      if (word === undefined) cells.reject(column, "unknown-word", `must be one of: ${words.join(", ")}`)
      return word ?? null
    },
    yesOrNo(column: string): boolean | null {
      const value = raw(column).toLowerCase()
      if (value === "") return null
      if (yes.has(value)) return true
      if (!no.has(value)) cells.reject(column, "unreadable", "must be true, false, yes, no, 1 or 0")
      return false
    },
    number(column: string): Decimal | null {
      const value = raw(column)
      if (value === "") return null
      const number = decimalFromText(value)
      if (number === null)
        cells.reject(column, "unreadable", "is not a number (digits, with a point before decimals)")
      return number
    },
    positive(column: string): Decimal | null {
      const number = cells.number(column)
      if (number !== null && (number === "0" || number.startsWith("-")))
        cells.reject(column, "implausible", "must be above 0")
      return number
    },
    date(column: string): Day | null {
      const value = raw(column)
      if (value === "") return null
      const day = dayFromText(value)
      if (day === null)
        cells.reject(column, "unreadable", "is not a day of the calendar, written like 2026-01-31")
      return day
    },
    time(column: string): Moment | null {
      const value = raw(column)
      if (value === "") return null
      const moment = momentFromText(value, clock)
      if (moment === null)
        cells.reject(
          column,
          "unreadable",
          "is not a time, written like 2026-01-31T14:30 or 2026-01-31T14:30+02:00",
        )
      return moment
    },
    eventDate(column: string): Day | null {
      const day = cells.date(column)
      if (day !== null) row.events.push({ column, day })
      return day
    },
    eventTime(column: string): Moment | null {
      const moment = cells.time(column)
      if (moment !== null) row.events.push({ column, day: moment.day })
      return moment
    },
    /** A BCP 47 tag in its usual spelling. */
    language(column: string): string | null {
      const value = raw(column)
      if (value === "") return null
      const tag = languageOf(value)
      if (tag === null)
        cells.reject(column, "unreadable", "is not a language tag (BCP 47), written like en or es-MX")
      return tag
    },
    /** One or more words with `;` between, in one spelling. */
    list(column: string): string | null {
      const words = (cells.text(column) ?? "").split(";").map((word) => word.trim())
      return words.filter(Boolean).join(";") || null
    },
    rejectEventsAfter(day: Day): void {
      for (const event of row.events)
        if (event.day > day)
          cells.reject(event.column, "in-future", `lies in the future (after ${textOfDay(day)})`)
    },
    rejectEventsBefore(birth: Day): void {
      for (const event of row.events)
        if (event.day < birth) cells.reject(event.column, "before-birth", "lies before the patient's birth")
    },
    /** Rejects the row when something ends before it starts. */
    ends({ column, day }: DatedCell, start: DatedCell): void {
      if (day !== null && start.day !== null && day < start.day)
        cells.reject(column, "end-before-start", `lies before ${start.column}`)
    },
    need: {
      text: (column: string): string => needed(column, cells.text(column), ""),
      id: (column: string): string => needed(column, cells.id(column), ""),
      word: <Word extends string>(column: string, words: readonly [Word, ...Word[]]): Word =>
        needed(column, cells.word(column, words), words[0]),
      number: (column: string): Decimal => needed(column, cells.number(column), "0"),
      date: (column: string): Day => needed(column, cells.date(column), 0),
      time: (column: string): Moment => needed(column, cells.time(column), noMoment),
      eventDate: (column: string): Day => needed(column, cells.eventDate(column), 0),
      eventTime: (column: string): Moment => needed(column, cells.eventTime(column), noMoment),
    },
  }

  function raw(column: string): string {
    const index = indexByColumn.get(column)
    return index === undefined ? "" : trimmed(fields[index] ?? "")
  }

  function needed<Value>(column: string, value: Value | null, standIn: Value): Value {
    if (value !== null) return value
    cells.reject(column, "missing-value", "is empty, and every row needs it")
    return standIn
  }

  return cells
}

/** Most cells have nothing to trim, which their first and last characters show. */
function trimmed(text: string): string {
  return isGraphic(text.charCodeAt(0)) && isGraphic(text.charCodeAt(text.length - 1)) ? text : text.trim()
}

function isGraphic(code: number): boolean {
  return code > 32 && code < 127
}

/** Postgres keeps no NUL, and the unit separator stands between the values of a fact. */
function isUnkeepable(text: string): boolean {
  return text.includes("\0") || text.includes(unitSeparator)
}

function canonicalLanguage(tag: string): string | null {
  try {
    return Intl.getCanonicalLocales(tag)[0] ?? null
  } catch {
    return null
  }
}
