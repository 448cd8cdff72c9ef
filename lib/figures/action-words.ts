import type { MeasureAction } from "../domain/measure-actions"
import { plainToday } from "../domain/plain-date"
import { day, month } from "../speech/format"

/** Who, until when, of which meeting, and how it ended: "Dietitian. Due 15 Nov 2026. Of October 2026, written by Ruth Alder." */
export function actionFacts(action: MeasureAction, timeZone: string): string {
  return [
    action.kind === "decision" ? "Decision." : "",
    action.owner === null ? "" : `${action.owner}.`,
    action.dueOn === null ? "" : `Due ${day(action.dueOn)}.`,
    `Of ${month(action.month)}, written by ${action.madeBy}.`,
    endWords(action, timeZone),
  ]
    .filter((words) => words !== "")
    .join(" ")
}

function endWords({ closedAt, closedBy, state }: MeasureAction, timeZone: string): string {
  if (closedAt === null) return ""
  const word = state === "done" ? "Done" : "Dropped"
  return `${word} ${day(plainToday(closedAt, timeZone))}, ${closedBy}.`
}
