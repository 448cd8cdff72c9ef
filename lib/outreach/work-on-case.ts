import type { PrismaClient } from "../store/generated/client"
import {
  changeCase,
  takeFirst,
  type CaseAnswer,
  type CaseWork,
  type LineExtra,
} from "../store/outreach-cases"
import type { CaseAct, CaseEvent, LastAct, Refusal } from "./case-events"
import { next } from "./case-life"

type TakeBack = { readonly kind: "take back" }

/** What somebody does with a case, as they saw it at `version`, on the clinic's day `on`. */
export function workOnCase(
  client: PrismaClient,
  work: CaseWork & { id: number; version: number; on: string; act: CaseAct | TakeBack; note: string | null },
): Promise<CaseAnswer<Refusal>> {
  const { act, on, note, caller } = work
  return changeCase(client, {
    ...work,
    extra: { ...extraOf(act), note },
    decide: (before, last) => next(before, eventOf(act, { on, by: caller.userId, last })),
  })
}

function eventOf(
  act: CaseAct | TakeBack,
  { last, ...done }: { on: string; by: string; last: LastAct | null },
): CaseEvent {
  return act.kind === "take back" ? { ...act, ...done, last } : { ...act, ...done }
}

/** Takes the first person in the order whom nobody has; null when there is none. */
export function takeNext(
  client: PrismaClient,
  work: CaseWork & { on: string },
): Promise<CaseAnswer<Refusal> | null> {
  const { on, caller } = work
  return takeFirst(client, {
    ...work,
    decide: (before) => next(before, { kind: "take", on, by: caller.userId }),
  })
}

function extraOf(act: CaseAct | TakeBack): LineExtra {
  if (act.kind === "assign") return { assignedTo: act.to }
  if (act.kind === "snooze") return { until: act.until }
  if (act.kind === "attempt") return { channel: act.channel, outcome: act.outcome, until: act.againOn }
  return {}
}
