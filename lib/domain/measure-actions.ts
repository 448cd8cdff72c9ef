import type { PlainDate } from "./plain-date"

export const actionKinds = ["decision", "action"] as const

export type ActionKind = (typeof actionKinds)[number]

export const actionStates = ["open", "done", "dropped"] as const

export type ActionState = (typeof actionStates)[number]

/** The most letters of what was decided, of its outcome, and of who does it. */
export const longestAction = 500
export const longestOwner = 100

/** What a meeting decided about a measure, or what somebody is to do until when. */
export type MeasureAction = {
  id: number
  measureId: string
  /** The month the meeting spoke of, "2026-10". */
  month: string
  kind: ActionKind
  text: string
  /** A name or a role; a decision may have none. */
  owner: string | null
  ownerId: string | null
  dueOn: PlainDate | null
  state: ActionState
  outcome: string | null
  madeBy: string
  madeAt: Date
  closedBy: string | null
  closedAt: Date | null
  version: number
}

/** Open past the day by which it was to be done; on that day it is not. */
export function isOverdue(action: MeasureAction, today: PlainDate): boolean {
  return action.state === "open" && action.dueOn !== null && action.dueOn < today
}

/** The open before the closed; among the open the first due first, and what has no day last; the closed latest first. */
export function inOrder(actions: readonly MeasureAction[]): MeasureAction[] {
  return actions.toSorted((a, b) => {
    if ((a.state === "open") !== (b.state === "open")) return a.state === "open" ? -1 : 1
    if (a.state === "open") return (a.dueOn ?? "9999").localeCompare(b.dueOn ?? "9999") || a.id - b.id
    return (b.closedAt?.getTime() ?? 0) - (a.closedAt?.getTime() ?? 0) || b.id - a.id
  })
}

/** What a document of a month tells of the log: the open, those of the month, and those closed since it began; and how many more. */
export function toldOf(
  actions: readonly MeasureAction[],
  month: string,
): { told: MeasureAction[]; others: number } {
  const isTold = ({ state, month: own, closedAt }: MeasureAction) =>
    state === "open" || own === month || (closedAt !== null && closedAt.toISOString().slice(0, 7) >= month)
  const told = inOrder(actions.filter(isTold))
  return { told, others: actions.length - told.length }
}

/** What a meeting about one month looks at first. */
export type MeetingActions = {
  /** Actions of earlier months that are still open, the overdue first. */
  openBefore: MeasureAction[]
  /** How many actions of earlier months were done since the month before ended. */
  doneSince: number
  /** Decisions and actions of the month itself. */
  ofMonth: MeasureAction[]
}

/** Sorts the log for the meeting about one month. */
export function forMeeting(actions: readonly MeasureAction[], month: string): MeetingActions {
  const earlier = actions.filter((one) => one.kind === "action" && one.month < month)
  const isSince = (at: Date | null) => at !== null && at.toISOString().slice(0, 7) >= month
  return {
    openBefore: inOrder(earlier.filter((one) => one.state === "open")),
    doneSince: earlier.filter((one) => one.state === "done" && isSince(one.closedAt)).length,
    ofMonth: inOrder(actions.filter((one) => one.month === month)),
  }
}
