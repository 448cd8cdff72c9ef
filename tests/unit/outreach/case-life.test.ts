import { describe, expect, test } from "vitest"
import type { HeldReason, OutreachCase } from "../../../lib/domain/outreach-case"
import { attemptsRule, nextStep } from "../../../lib/outreach/attempts-rule"
import { defaultSettings } from "../../../lib/domain/settings"
import type { CaseEvent, DataEvent } from "../../../lib/outreach/case-events"
import { suggestedAgain } from "../../../lib/domain/suggested-again"
import { next } from "../../../lib/outreach/case-life"
import { isUnseenUrgent, standingOf } from "../../../lib/outreach/case-standing"

const high = held("pressure-high", "2026-03-01")
const due = held("urine-albumin-due", null)
const urgent = { ...held("potassium-very-high", "2026-03-01"), isUrgent: true }

function held(reason: string, factOn: string | null): HeldReason {
  const none = { value: null, secondValue: null, comparator: null, fallsOutOn: null }
  return { reason, factOn, isUrgent: false, ...none }
}

const looked = (on: string, reasons: HeldReason[], lastSeenOn: string | null = null): DataEvent => ({
  ...{ kind: "data", on, reasons, keptFrom: null, lastSeenOn, ended: [] },
})

/** The case after some events, each of which has to be taken. */
function after(...events: CaseEvent[]): OutreachCase {
  const last = events.reduce<OutreachCase | null>((one, event) => {
    const verdict = next(one, event)
    if (!verdict.ok) throw new Error(`refused: ${verdict.why}`)
    return verdict.case
  }, null)
  if (!last) throw new Error("no case")
  return last
}

function lineOf(one: OutreachCase, event: CaseEvent) {
  const verdict = next(one, event)
  return verdict.ok ? verdict.line : verdict.why
}

const closed = (reason: "done" | "declined" | "moved" | "not appropriate") =>
  ({ kind: "close", on: "2026-03-10", by: "ada", reason }) as const

describe("a closing speaks for the reasons it had", () => {
  test.each([
    ["done", "2026-03-30", "2026-03-31", "fact has not come"],
    ["declined", "2026-09-09", "2026-09-10", "time is over"],
    ["not appropriate", "2027-03-09", "2027-03-10", "time is over"],
  ] as const)("%s: still on %s, no longer on %s", (reason, still, over, why) => {
    const one = after(looked("2026-03-02", [high]), closed(reason))

    expect(lineOf(one, looked(still, [high]))).toBeNull()
    expect(lineOf(one, { kind: "wake", on: over })).toMatchObject({ kind: "reopened", why })
  })

  test("moved holds until somebody saw the person since", () => {
    const one = after(looked("2026-03-02", [high]), closed("moved"))

    expect(lineOf(one, looked("2029-01-01", [high, due], "2026-03-10"))).toBeNull()
    expect(lineOf(one, looked("2026-03-12", [high], "2026-03-11"))).toMatchObject({ why: "seen since" })
  })

  test("another reason, or one that is urgent now, opens it at once", () => {
    const one = after(looked("2026-03-02", [high]), closed("declined"))

    expect(lineOf(one, looked("2026-03-11", [high, due]))).toMatchObject({ why: "new reason" })
    expect(lineOf(one, looked("2026-03-11", [{ ...high, isUrgent: true }]))).toMatchObject({
      why: "now urgent",
    })
  })

  test("done is over once the fact came, a refusal is not", () => {
    const returned = (reason: "done" | "declined") =>
      lineOf(
        after(looked("2026-03-02", [high]), closed(reason), looked("2026-03-11", [])),
        looked("2026-03-12", [high]),
      )

    expect(returned("done")).toMatchObject({ kind: "reopened", why: "reason returned" })
    expect(returned("declined")).toBeNull()
  })
})

test("without a reason a case closes itself and says what came, and opens when the reason returns", () => {
  const one = after(looked("2026-03-02", [high]))
  const came = { ...high, factOn: "2026-03-15", value: 128 }

  const line = lineOf(one, { ...looked("2026-03-16", []), ended: [came] })

  expect(line).toMatchObject({ kind: "closed itself", why: "no reason left", ended: [came] })
  const back = after(looked("2026-03-02", [high]), looked("2026-03-16", []), looked("2026-03-20", [high]))
  expect(back).toMatchObject({ state: "open", round: 2 })
})

describe("what is urgent", () => {
  test("is hidden by no attempt and no snooze until somebody acknowledged it, and again with a later fact", () => {
    const one = after(looked("2026-03-02", [urgent]))
    expect(lineOf(one, { kind: "snooze", on: "2026-03-02", by: "ada", until: "2026-03-05" })).toBe(
      "urgent, not acknowledged",
    )

    const seen = after(looked("2026-03-02", [urgent]), { kind: "acknowledge", on: "2026-03-02", by: "ada" })
    expect(isUnseenUrgent(seen)).toBe(false)
    const later = next(seen, looked("2026-03-05", [{ ...urgent, factOn: "2026-03-04" }]))
    expect(later.ok && standingOf(later.case, "2026-03-05").kind).toBe("urgent")
  })

  test("wakes a snoozed person before their day", () => {
    const one = after(looked("2026-03-02", [due]), {
      ...{ kind: "snooze", on: "2026-03-02", by: "ada", until: "2026-05-31" },
    })

    expect(standingOf(one, "2026-05-30")).toEqual({ kind: "snoozed", until: "2026-05-31" })
    expect(standingOf(one, "2026-05-31").kind).toBe("to contact")
    expect(lineOf(one, looked("2026-03-03", [due, urgent]))).toMatchObject({
      kind: "woken",
      why: "now urgent",
    })
  })
})

test("a snooze ends within 90 days, and an attempt that failed says when to try again", () => {
  const one = after(looked("2026-03-02", [due]))
  const snooze = (until: string) => lineOf(one, { kind: "snooze", on: "2026-03-02", by: "ada", until })
  const attempt = (againOn: string | null) =>
    lineOf(one, {
      ...{ kind: "attempt", on: "2026-03-02", by: "ada", channel: "phone", outcome: "no answer", againOn },
    })

  expect(snooze("2026-05-31")).toMatchObject({ to: "snoozed" })
  expect(snooze("2026-06-01")).toBe("day is beyond 90 days")
  expect(snooze("2026-03-02")).toBe("day is not later")
  expect(attempt(null)).toBe("day is missing")
  expect(attempt("2026-03-04")).toMatchObject({ kind: "attempt", to: "open" })
})

test("a letter is sent or returned by letter alone, and what comes of it is waited for", () => {
  const one = after(looked("2026-03-02", [due]))
  const attempt = (channel: "letter" | "phone", outcome: "letter sent" | "letter returned") =>
    next(one, {
      ...{ kind: "attempt", on: "2026-03-02", by: "ada", channel, outcome },
      againOn: suggestedAgain(outcome, "2026-03-02"),
    })

  expect(attempt("phone", "letter sent")).toEqual({ ok: false, why: "only of a letter" })
  expect(attempt("phone", "letter returned")).toEqual({ ok: false, why: "only of a letter" })
  expect(attempt("letter", "letter returned")).toMatchObject({ ok: true, case: { againOn: null } })
  // Two weeks: common practice, no source; 2 and 16 March 2026 are Mondays.
  expect(attempt("letter", "letter sent")).toMatchObject({ ok: true, case: { againOn: "2026-03-16" } })
})

test("three attempts by two channels, then a letter, then the clinician", () => {
  const step = (...channels: ("phone" | "text" | "letter")[]) =>
    nextStep(
      channels.map((channel) => ({ channel })),
      attemptsRule(defaultSettings),
    )

  expect([step(), step("phone"), step("phone", "phone"), step("phone", "text")]).toEqual([
    ...["try", "try", "try another channel", "try"],
  ])
  expect(step("phone", "phone", "phone")).toBe("try another channel")
  expect(step("phone", "text", "phone")).toBe("write a letter")
  expect(step("phone", "text", "phone", "letter")).toBe("tell the clinician")
})
