import fc from "fast-check"
import { expect, it } from "vitest"
import { daysAfter, monthsAfter } from "../../../lib/domain/day-sums"
import {
  closeReasons,
  contactChannels,
  contactOutcomes,
  keptFromContact,
  type HeldReason,
  type OutreachCase,
} from "../../../lib/domain/outreach-case"
import type { CaseEvent, HistoryLine, LastAct, WorkEvent } from "../../../lib/outreach/case-events"
import { next } from "../../../lib/outreach/case-life"
import { standingOf } from "../../../lib/outreach/case-standing"

// One clinic of three people over two years: what is true of each, what anybody does, and a case by what came of it. What has
// to hold is worked out here from what happened alone, never by the functions under test.

const people = ["a", "b", "c"] as const
const staff = ["ada", "ben"]
const reasonNames = ["high", "due", "late"]
const firstDay = "2026-01-01"

type Truth = { reasons: HeldReason[]; keptFrom: OutreachCase["keptFrom"]; lastSeenOn: string | null }
type Person = {
  last: LastAct | null
  truth: Truth
  one: OutreachCase | null
  lines: HistoryLine[]
  /** What was true at the latest look. */
  lookedAt: Truth | null
  /** The latest closing, with the reasons that held then. */
  closing: { line: HistoryLine; reasons: HeldReason[] } | null
}
type Drawn = {
  reasons: { reason: string; isUrgent: boolean; factDaysAgo: number | null }[]
  keptFrom: Truth["keptFrom"]
  seenDaysAgo: number | null
}

const held = fc.record({
  reason: fc.constantFrom(...reasonNames),
  isUrgent: fc.boolean(),
  factDaysAgo: fc.option(fc.nat(40)),
})

const truths: fc.Arbitrary<Drawn> = fc.record({
  reasons: fc.uniqueArray(held, { selector: (one) => one.reason, maxLength: 3 }),
  keptFrom: fc.option(fc.constantFrom(...keptFromContact), { freq: 4 }),
  seenDaysAgo: fc.option(fc.nat(200)),
})

type Act = (on: string, by: string) => WorkEvent

const acts: fc.Arbitrary<Act> = fc.oneof(
  fc.constantFrom(null, ...staff).map((to): Act => (on, by) => ({ kind: "assign", on, by, to })),
  fc.constant<Act>((on, by) => ({ kind: "take", on, by })),
  fc
    .record({
      channel: fc.constantFrom(...contactChannels),
      outcome: fc.constantFrom(...contactOutcomes),
      wait: fc.option(fc.integer({ min: -2, max: 100 })),
    })
    .map(({ channel, outcome, wait }): Act => (on, by) => ({
      ...{ kind: "attempt", on, by, channel, outcome },
      againOn: wait === null ? null : daysAfter(on, wait),
    })),
  fc
    .integer({ min: -2, max: 100 })
    .map((days): Act => (on, by) => ({ kind: "snooze", on, by, until: daysAfter(on, days) })),
  fc.constantFrom(...closeReasons).map((reason): Act => (on, by) => ({ kind: "close", on, by, reason })),
  fc.constantFrom("note", "acknowledge", "reopen").map((kind): Act => (on, by) => ({ kind, on, by })),
)

const steps = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({ do: fc.constant("act" as const), act: acts, by: fc.constantFrom(...staff) }),
  },
  { weight: 3, arbitrary: fc.record({ do: fc.constant("change" as const), truth: truths }) },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constant("pass" as const), days: fc.constantFrom(1, 20, 21, 90, 185) }),
  },
)

const sequences = fc.array(fc.tuple(fc.constantFrom(...people), steps), {
  minLength: 1,
  maxLength: 40,
  size: "max",
})

it("no sequence of actions and data loses a case, shows a closed one as open, contacts who is kept from it, or drops history", () => {
  let refused = 0
  fc.assert(
    fc.property(sequences, (sequence) => {
      const clinic = new Map<string, Person>(people.map((name) => [name, nobodyYet()]))
      let today = firstDay
      for (const [name, step] of sequence) {
        const person = clinic.get(name)
        if (!person) throw new Error("nobody of that name")
        if (step.do === "pass") today = daysAfter(today, step.days)
        if (step.do === "pass") for (const one of clinic.values()) tell(one, { kind: "wake", on: today })
        if (step.do === "change") person.truth = truthOn(today, step.truth)
        if (step.do === "act") refused += tell(person, step.act(today, step.by)) ? 0 : 1
        else for (const one of clinic.values()) look(one, today)
        for (const one of clinic.values()) expectSound(one, today)
      }
    }),
    { numRuns: 800, seed: 20_261_128 },
  )
  expect(refused).toBeGreaterThan(1_000)
}, 120_000)

it("the same look at the data twice is one", () => {
  fc.assert(
    fc.property(sequences, (sequence) => {
      const person = nobodyYet()
      let today = firstDay
      for (const [, step] of sequence) {
        if (step.do === "pass") today = daysAfter(today, step.days)
        if (step.do === "change") person.truth = truthOn(today, step.truth)
        if (step.do === "act") tell(person, step.act(today, step.by))
        look(person, today)
        const { one, lines } = { ...person, lines: [...person.lines] }
        look(person, today)

        expect(person.one).toEqual(one)
        expect(person.lines).toEqual(lines)
      }
    }),
    { numRuns: 300, seed: 20_261_129 },
  )
})

it("what is taken back leaves the case as it was, and nothing is taken back across another's act, a day or new data", () => {
  const counted = { taken: 0, refused: 0 }
  fc.assert(
    fc.property(sequences, fc.constantFrom(...staff), (sequence, by) => {
      const person = nobodyYet()
      let today = firstDay
      for (const [, step] of sequence) {
        const before = person.one
        if (step.do === "pass") today = daysAfter(today, step.days)
        if (step.do === "change") person.truth = truthOn(today, step.truth)
        const isDone = step.do === "act" ? tell(person, step.act(today, step.by)) : false
        if (step.do !== "act") look(person, today)
        const { one, last } = person
        const lines = person.lines.length
        const wasTaken = tell(person, { kind: "take back", on: today, by, last })
        if (isDone && step.do === "act") expect(wasTaken).toBe(step.by === by)
        if (!wasTaken) {
          counted.refused += 1
          expect(person.one).toEqual(one)
          continue
        }
        counted.taken += 1
        expect([last?.by, last?.on]).toEqual([by, today])
        expect(person.one).toEqual(last?.before)
        if (isDone) expect(person.one).toEqual(before)
        expect(person.lines).toHaveLength(lines + 1)
        expect(tell(person, { kind: "take back", on: today, by, last: person.last })).toBe(false)
      }
    }),
    { numRuns: 500, seed: 20_261_130 },
  )
  expect(Math.min(counted.taken, counted.refused)).toBeGreaterThan(500)
})

function nobodyYet(): Person {
  const truth = { reasons: [], keptFrom: null, lastSeenOn: null }
  return { truth, last: null, one: null, lines: [], lookedAt: null, closing: null }
}

function truthOn(today: string, drawn: Drawn): Truth {
  const reasons = drawn.reasons.map(({ reason, isUrgent, factDaysAgo }) => ({
    ...{ reason, isUrgent, value: null, secondValue: null, comparator: null, fallsOutOn: null },
    factOn: factDaysAgo === null ? null : daysAfter(today, -factDaysAgo),
  }))
  const seenOn = drawn.seenDaysAgo === null ? null : daysAfter(today, -drawn.seenDaysAgo)
  return { reasons, keptFrom: drawn.keptFrom, lastSeenOn: seenOn }
}

function look(person: Person, on: string): void {
  person.lookedAt = person.truth
  tell(person, { kind: "data", on, ended: [], ...person.truth })
}

/** Whether it was done; what went before must stay as it was, and a change of state must leave a line. */
function tell(person: Person, event: CaseEvent): boolean {
  const before = deepFrozen(person.one)
  const verdict = next(before, event)
  if (!verdict.ok) {
    expect(before === null || event.kind !== "data").toBe(true)
    return false
  }
  if (event.kind === "attempt") expect(person.lookedAt?.keptFrom).toBeNull()
  if (event.kind !== "data" && event.kind !== "wake") expect(verdict.line).not.toBeNull()
  if (verdict.line !== null) {
    expect(verdict.line.from).toBe(before?.state ?? null)
    expect(verdict.line.to).toBe(verdict.case.state)
    const { line } = verdict
    person.lines.push(deepFrozen(line))
    person.last =
      "by" in event && before !== null
        ? { by: event.by, on: event.on, kind: line.kind, before, after: verdict.case }
        : null
    if (line.to === "closed" && line.from !== "closed")
      person.closing = { line, reasons: person.lookedAt?.reasons ?? [] }
  } else expect(verdict.case.state).toBe(before?.state)
  person.one = verdict.case
  return true
}

function expectSound(person: Person, today: string): void {
  const { one, lines, lookedAt } = person
  const hadReason = lines.length > 0
  expect(one !== null).toBe(hadReason)
  if (one === null) {
    expect(lookedAt?.reasons ?? []).toEqual([])
    return
  }
  const standing = standingOf(one, today)
  const lastLine = lines.at(-1)
  expect(one.state).toBe(lastLine?.to)
  expect(one.state === "closed").toBe(one.closed !== null)
  expect(standing.kind === "closed").toBe(one.state === "closed")
  if (lookedAt?.keptFrom) expect(["kept", "closed"]).toContain(standing.kind)
  if (one.state === "closed") expectHeld(person, today)
  else expect(lookedAt?.reasons).not.toEqual([])
  if (standing.kind === "snoozed" || standing.kind === "waiting") {
    expect(standing.until > today).toBe(true)
    expect(standing.until <= daysAfter(today, 90)).toBe(true)
    const isSeen = one.acknowledgedBy !== null || !one.reasons.some((reason) => reason.isUrgent)
    expect(isSeen).toBe(true)
  }
}

/** Told from what happened alone: whether the last closing may speak for the reasons there are. A look is at most of today. */
function expectHeld({ closing, lookedAt }: Person, today: string): void {
  const reasons = lookedAt?.reasons ?? []
  if (reasons.length === 0) return
  if (!closing) throw new Error("closed without a line that says so")
  const { on, why } = closing.line
  const ends: Partial<Record<string, string>> = {
    done: daysAfter(on, 21),
    declined: monthsAfter(on, 6),
    "not appropriate": monthsAfter(on, 12),
  }
  if (why === "moved" || why === "deceased") {
    expect((lookedAt?.lastSeenOn ?? on) <= on).toBe(true)
    return
  }
  expect((ends[why ?? ""] ?? "") > today).toBe(true)
  for (const now of reasons) {
    const then = closing.reasons.find((one) => one.reason === now.reason)
    expect(then).toBeDefined()
    if (now.isUrgent) expect(then?.isUrgent && (now.factOn ?? on) <= on).toBe(true)
  }
}

function deepFrozen<T>(value: T): T {
  if (typeof value === "object" && value !== null) {
    Object.freeze(value)
    for (const one of Object.values(value)) deepFrozen(one)
  }
  return value
}
