import { daysAfter } from "../lib/domain/day-sums"
import type { ContactChannel, ContactOutcome } from "../lib/domain/outreach-case"
import type { PlainDate } from "../lib/domain/plain-date"
import { openRandom, type Random } from "./random"

/** What the coordinator of the demo clinic does with one person's case, day by day. */
export type InventedAct =
  | { kind: "acknowledge"; on: PlainDate }
  | { kind: "take"; on: PlainDate }
  | { kind: "snooze"; on: PlainDate; until: PlainDate }
  | { kind: "close"; on: PlainDate; reason: "not appropriate" | "done" }
  | {
      kind: "attempt"
      on: PlainDate
      channel: ContactChannel
      outcome: ContactOutcome
      againOn: PlainDate | null
    }

const outcomes: readonly { outcome: ContactOutcome; weight: number; isOver: boolean }[] = [
  { outcome: "reached, agreed", weight: 34, isOver: true },
  { outcome: "no answer", weight: 26, isOver: false },
  { outcome: "message left", weight: 16, isOver: false },
  { outcome: "wants a call back", weight: 8, isOver: false },
  { outcome: "reached, already done", weight: 5, isOver: true },
  { outcome: "reached, declined", weight: 4, isOver: true },
  { outcome: "proxy reached", weight: 3, isOver: false },
  { outcome: "wrong number", weight: 2, isOver: true },
  { outcome: "language barrier", weight: 2, isOver: false },
]

const channels: readonly { channel: ContactChannel; weight: number }[] = [
  { channel: "phone", weight: 70 },
  { channel: "text", weight: 14 },
  { channel: "portal", weight: 8 },
  { channel: "e-mail", weight: 5 },
  { channel: "in person", weight: 3 },
]

/** The acts between two days, in their order; none for whoever is not called in that time. Drawn for each case by itself. */
export function inventedActs(of: {
  caseId: number
  after: PlainDate
  before: PlainDate
}): readonly InventedAct[] {
  const { caseId, after, before } = of
  const random = openRandom(1, "outreach", caseId, after)
  if (!random.chance(0.3)) return []
  const first = daysAfter(after, random.whole(1, 21))
  if (first >= before) return []
  if (random.chance(0.04))
    return [{ kind: "snooze", on: first, until: daysAfter(first, random.whole(20, 60)) }]
  if (random.chance(0.03))
    return [{ kind: "close", on: first, reason: random.pick(["not appropriate", "done"]) }]
  const taken: InventedAct[] = random.chance(0.5) ? [{ kind: "take", on: first }] : []
  return [...taken, ...attemptsFrom(random, { first, before })]
}

/** What is done about something urgent: most is acknowledged by the second day, some never, which the clinic then finds out. */
export function inventedAcknowledgement(of: {
  caseId: number
  after: PlainDate
  before: PlainDate
}): readonly InventedAct[] {
  const random = openRandom(1, "urgent", of.caseId, of.after)
  const on = daysAfter(
    of.after,
    random.weigh([
      { days: 1, weight: 6 },
      { days: 2, weight: 2 },
      { days: 5, weight: 1 },
    ]).days,
  )
  return random.chance(0.85) && on < of.before ? [{ kind: "acknowledge", on }] : []
}

/** Up to three attempts, each on the day the one before named. */
function attemptsFrom(random: Random, of: { first: PlainDate; before: PlainDate }): InventedAct[] {
  const acts: InventedAct[] = []
  let on: PlainDate | null = of.first
  while (on !== null && on < of.before && acts.length < 3) {
    const { outcome, isOver } = random.weigh(outcomes)
    const againOn: PlainDate | null = isOver ? null : daysAfter(on, random.whole(3, 12))
    acts.push({ kind: "attempt", on, channel: random.weigh(channels).channel, outcome, againOn })
    on = againOn
  }
  return acts
}
