import { toldOf, type MeasureAction } from "../../domain/measure-actions"
import { actionFacts } from "../../figures/action-words"
import type { MonthReport } from "../../figures/month-report"
import { counted } from "../../speech/format"
import type { Line } from "./lines"
import { ink, paper } from "./sheet"

const stateWidth = 46

/** Decisions and actions one under the other: how each stands, what it says, and who does it until when. */
export function actionLines(
  actions: readonly MeasureAction[],
  about: { timeZone: string; nameOf?: (action: MeasureAction) => string },
): Line[] {
  return actions.flatMap((action): Line[] => {
    const name = about.nameOf ? `${about.nameOf(action)}: ` : ""
    const beneath = [
      actionFacts(action, about.timeZone),
      ...(action.outcome === null ? [] : [`Note: ${action.outcome}`]),
    ]
    return [
      {
        cells: [
          { text: stateWord(action), x: paper.left, width: stateWidth, size: 9, font: "sansBold", gap: 0 },
          { text: `${name}${action.text}`, ...besideState, size: 9, gap: 0 },
        ],
        after: 1,
      },
      ...beneath.map((text, place): Line => ({
        cells: [{ text, ...besideState, size: 8, gap: 0, colour: ink.soft }],
        after: place === beneath.length - 1 ? 5 : 1,
      })),
    ]
  })
}

/** Those of one measure that the month's document tells, under a head; nothing where nothing was written. */
export function measureActionLines(actions: readonly MeasureAction[], report: MonthReport): Line[] {
  const { told, others } = toldOf(actions, report.month)
  if (actions.length === 0) return []
  return [
    headLine("Decisions and actions"),
    ...actionLines(told, report),
    ...(others === 0
      ? []
      : [softLine(`${counted(others, "earlier one is", "earlier ones are")} done or dropped.`)]),
  ]
}

/** A small head over lines. */
export function headLine(text: string): Line {
  return {
    cells: [{ text, x: paper.left, width: paper.right - paper.left, font: "sansBold", size: 8.5, gap: 0 }],
    after: 3,
  }
}

export function softLine(text: string): Line {
  return {
    cells: [{ text, x: paper.left, width: paper.right - paper.left, size: 8.5, gap: 0, colour: ink.soft }],
    after: 4,
  }
}

const besideState = { x: paper.left + stateWidth, width: paper.right - paper.left - stateWidth } as const

function stateWord({ state, kind }: MeasureAction): string {
  if (state === "done") return "Done"
  if (state === "dropped") return "Dropped"
  return kind === "decision" ? "Decided" : "Open"
}
