import { count, counted, listed } from "../../../lib/speech/format"
import type { FileReport } from "../../../lib/domain/import-report"
import type { ImportEntry } from "../../../lib/store/imports"

/** The word of an import's state; the message says more where there is one. */
export const statusWords: Record<ImportEntry["status"], string> = {
  waiting: "waits its turn",
  running: "under way",
  done: "stored",
  asks: "asks before it goes on",
  refused: "not used",
  failed: "failed",
}

const outcomes = ["added", "changed", "unchanged", "withdrawn", "held", "rejected"] as const

/** What became of an import's rows, or what would have, in one sentence. */
export function importSentence(entry: Pick<ImportEntry, "status" | "files">): string {
  const isStored = entry.status === "done"
  return `${isStored ? "" : "Nothing of it is stored. It would do this: "}${rowsSentence(entry.files)}`
}

/** What becomes of an extract's rows; what happens to none is left out. */
export function rowsSentence(files: readonly FileReport[]): string {
  const total = (name: "dataRows" | (typeof outcomes)[number]) =>
    files.reduce((sum, file) => sum + file[name], 0)
  const parts = outcomes.flatMap((name) => (total(name) === 0 ? [] : [`${count(total(name))} ${name}`]))
  const rows = `${counted(total("dataRows"), "row", "rows")} in ${counted(files.length, "file", "files")}`
  const gone = files.reduce((sum, file) => sum + file.notes.withdrawnByFull, 0)
  const withdrawn = gone === 0 ? "" : ` Withdrawn, as no longer in it: ${counted(gone, "fact", "facts")}.`
  return parts.length === 0 ? `${rows}.${withdrawn}` : `${rows}: ${listed(parts)}.${withdrawn}`
}

/** An instant with its year, on the clinic's clock: "2 November 2026, 06:10". */
export function instantInFull(at: Date, timeZone: string): string {
  const field = new Map(
    new Intl.DateTimeFormat("en-GB", {
      timeZone,
      year: "numeric",
      month: "long",
      day: "numeric",
      hour: "2-digit",
      minute: "2-digit",
      hourCycle: "h23",
    })
      .formatToParts(at)
      .map((part) => [part.type, part.value]),
  )
  return `${field.get("day")} ${field.get("month")} ${field.get("year")}, ${field.get("hour")}:${field.get("minute")}`
}

/** How long something took: "40 seconds", "3 minutes". */
export function durationWords(from: Date, to: Date): string {
  const seconds = Math.max(1, Math.round((to.getTime() - from.getTime()) / 1000))
  return seconds < 100
    ? counted(seconds, "second", "seconds")
    : counted(Math.round(seconds / 60), "minute", "minutes")
}
