import type { Interval } from "../statistics/interval"

const space = "\u00a0" // between a number and its unit, so that a line never breaks there
const minus = "\u2212"

const months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const

const languages = new Intl.DisplayNames("en", { type: "language", fallback: "code" })

/** 12345 as "12,345". */
export function count(number: number): string {
  return number.toLocaleString("en-US", { maximumFractionDigits: 0 })
}

/** A number before words, never parted from them by a line's end: "1,204 at target". */
export function numbered(number: number, words: string): string {
  return `${count(number)}${space}${words}`
}

/** "1 person", "2 people". */
export function counted(number: number, one: string, several: string): string {
  return numbered(number, number === 1 ? one : several)
}

/** 0.614 as "61%"; a share that rounds to all or none without being so is "over 99%" or "under 1%". */
export function percent(ratio: number): string {
  const whole = halfUp(ratio * 100)
  if (whole === 100 && ratio < 1) return "over 99%"
  if (whole === 0 && ratio > 0) return "under 1%"
  return `${whole}%`
}

/** The ends of a share's interval, as "58 to 63"; ends that round to the same whole keep a decimal, as "0.0 to 0.4". */
export function percentInterval(interval: Interval): string {
  const [low, high] = [interval.low, interval.high].map((end) => String(halfUp(end * 100)))
  if (low !== high) return `${low} to ${high}`
  const tenths = [interval.low, interval.high].map((end) => (halfUp(end * 1000) / 10).toFixed(1))
  return tenths.join(" to ")
}

/** A difference of shares in points: "+1.4", "-0.3", "0.0". */
export function points(difference: number): string {
  const tenths = halfUp(Math.abs(difference) * 1000) / 10
  if (tenths === 0) return "0.0"
  return `${difference < 0 ? minus : "+"}${tenths.toFixed(1)}`
}

/** A difference of shares without its sign, "1.4 points". */
export function pointsSize(difference: number): string {
  const tenths = (halfUp(Math.abs(difference) * 1000) / 10).toFixed(1)
  return `${tenths}${space}${tenths === "1.0" ? "point" : "points"}`
}

/** -6.24 as "-6.2" with a true minus. */
export function oneDecimal(number: number): string {
  const tenths = (halfUp(Math.abs(number) * 10) / 10).toFixed(1)
  return number < 0 && tenths !== "0.0" ? `${minus}${tenths}` : tenths
}

/** 0.1234 as "12.3%"; a risk that rounds to nothing is "under 0.1%". */
export function percentTenth(ratio: number): string {
  const tenths = (halfUp(ratio * 1000) / 10).toFixed(1)
  return tenths === "0.0" && ratio > 0 ? "under 0.1%" : `${tenths}%`
}

/** 3139.6 as "3,140 mg". */
export function milligrams(mg: number): string {
  return `${signed(halfUp(mg))}${space}mg`
}

/** The ends of an interval in mg, as "3,040 to 3,240". */
export function milligramInterval(interval: Interval): string {
  return `${signed(halfUp(interval.low))} to ${signed(halfUp(interval.high))}`
}

/** 138 and 86 as "138/86". */
export function pressure(systolic: number, diastolic: number): string {
  return `${halfUp(systolic)}/${halfUp(diastolic)}`
}

/** A laboratory value with its comparator and unit: "<5 mg/g", "540 mg/g", "5.7 mmol/L". */
export function lab(value: {
  number: number
  comparator?: string | null
  unit: string
  decimals?: number
}): string {
  const number = value.number.toLocaleString("en-US", {
    minimumFractionDigits: value.decimals ?? 0,
    maximumFractionDigits: value.decimals ?? 0,
  })
  return `${value.comparator ?? ""}${number}${space}${value.unit}`
}

/** "2026-10-31" as "31 Oct 2026". */
export function day(plainDate: string): string {
  const { year, monthName, dayOfMonth } = parts(plainDate)
  return `${dayOfMonth}${space}${monthName.slice(0, 3)}${space}${year}`
}

/** "2026-10-31" as "31 October 2026". */
export function dayInFull(plainDate: string): string {
  const { year, monthName, dayOfMonth } = parts(plainDate)
  return `${dayOfMonth}${space}${monthName} ${year}`
}

/** "2026-10-31" as "31 October", where the year is plain from the page. */
export function dayOfYear(plainDate: string): string {
  const { monthName, dayOfMonth } = parts(plainDate)
  return `${dayOfMonth}${space}${monthName}`
}

/** "2026-10-31" as "Saturday". */
export function weekday(plainDate: string): string {
  return new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", weekday: "long" }).format(
    new Date(`${plainDate}T00:00:00Z`),
  )
}

/** "2026-10", or any day in it, as "October 2026". */
export function month(yearMonth: string): string {
  const { year, monthName } = parts(yearMonth)
  return `${monthName} ${year}`
}

/** "2026-10" as "Oct 2026". */
export function monthShort(yearMonth: string): string {
  const { year, monthName } = parts(yearMonth)
  return `${monthName.slice(0, 3)}${space}${year}`
}

/** "2026-10" as "October", where the year is plain from the page. */
export function monthName(yearMonth: string): string {
  return parts(yearMonth).monthName
}

/** An instant on the clinic's clock: "2 November, 06:10". */
export function instant(iso: string, timeZone: string): string {
  const field = new Map(
    new Intl.DateTimeFormat("en-GB", {
      timeZone,
      day: "numeric",
      month: "long",
      hour: "2-digit",
      minute: "2-digit",
      hourCycle: "h23",
    })
      .formatToParts(new Date(iso))
      .map((part) => [part.type, part.value]),
  )
  return `${field.get("day")}${space}${field.get("month")}, ${field.get("hour")}:${field.get("minute")}`
}

/** A list in a sentence: "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join("")
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`
}

/** A language by its tag (BCP 47): "vi" as "Vietnamese". */
export function languageName(tag: string): string {
  return languages.of(tag) ?? tag
}

/** The first letter raised, the rest as it is; a word such as eGFR keeps its form. */
export function sentenceCase(words: string): string {
  if (/^[a-z][A-Z]/.test(words)) return words
  return words.charAt(0).toUpperCase() + words.slice(1)
}

function parts(plainDate: string) {
  const [year = "", monthNumber = "", dayNumber = ""] = plainDate.split("-")
  return { year, monthName: months[Number(monthNumber) - 1] ?? "", dayOfMonth: Number(dayNumber) }
}

function signed(number: number): string {
  return number < 0 ? `${minus}${count(-number)}` : count(number)
}

function halfUp(number: number): number {
  return Math.floor(number + 0.5)
}
