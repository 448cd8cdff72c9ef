import { lastDayOfMonth, isPlainDate, plainToday, type PlainDate } from "../domain/plain-date"
import { AppError } from "../errors"
import type { SnapshotMeta } from "../engine/snapshot-meta"

/** The day a command speaks of: `--on`, or the day `--month` stands at, or the running day. */
export function asOfFrom(options: { on?: string; month?: string }, meta: SnapshotMeta, now: Date): PlainDate {
  if (options.on !== undefined && options.month !== undefined)
    throw new AppError("bad-request", "Give either --on or --month, not both.")
  const day = options.on ?? (options.month === undefined ? meta.runningAsOf : dayOfMonth(options.month, meta))
  if (!isPlainDate(day)) throw new AppError("bad-request", `--on takes a day like 2026-10-31, not "${day}".`)
  if (day > plainToday(now, meta.timeZone))
    throw new AppError("bad-request", `${day} lies in the future; only today and past days can be asked.`)
  return day
}

function dayOfMonth(month: string, meta: SnapshotMeta): PlainDate {
  if (!/^\d{4}-(0[1-9]|1[0-2])$/.test(month))
    throw new AppError("bad-request", `--month takes a month like 2026-10, not "${month}".`)
  const runningMonth = meta.runningAsOf.slice(0, 7)
  if (month > runningMonth)
    throw new AppError(
      "bad-request",
      `No data has been brought in for ${month}; the latest is of ${meta.runningAsOf}.`,
    )
  return month === runningMonth ? meta.runningAsOf : lastDayOfMonth(month)
}
