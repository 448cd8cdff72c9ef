import { dayInFull, instant } from "../speech/format"
import type { ReportedMonth } from "./month-report"

/** Whom a document speaks of that was made for somebody who sees a part of the clinic. */
export const partOfClinic = "Only the people whom the account that made this document may see."

/** What a document speaks of and when it was computed. */
export function reportStanding(report: ReportedMonth): string[] {
  const computed = `Computed ${instant(report.builtAt, report.timeZone)}.`
  const stands = report.isRunning
    ? `The month is running; data through ${dayInFull(report.asOf)}.`
    : `The month is complete, as it stands at ${dayInFull(report.asOf)}.`
  return [
    `${stands} ${computed}`,
    ...(report.isWholeClinic ? [] : [partOfClinic]),
    ...(report.isDemo ? ["A demonstration: the clinic and its people are invented."] : []),
  ]
}
