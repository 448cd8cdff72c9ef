import { expect, test } from "vitest"
import type { OutreachCase } from "../../../lib/domain/outreach-case"
import type { OutreachRow } from "../../../lib/outreach/outreach-list"
import { peopleToContact } from "../../../lib/outreach/people-to-contact"

const today = "2026-10-31"

function row(id: string, own: Partial<OutreachRow> = {}): OutreachRow {
  return {
    ...{ place: 1, patient_id: id, public_id: id, given_name: null, family_name: null, birth_date: null },
    ...{ age_years: 60, site: null, clinician_name: null, language: null, interpreter_needed: false },
    ...{ preferred_contact: null, phone: null, email: null, tier: "routine", risk_cell: null },
    ...{ failure_risk_2_years: null, reasons: 1, oldest_on: null, last_visit_on: null, next_visit_on: null },
    ...{
      is_booked_soon: false,
      kept_from: null,
      below_by: null,
      reason: "above-target",
      is_urgent: false,
      fact_on: null,
    },
    ...{ value: null, second_value: null, comparator: null, falls_out_on: null },
    ...own,
  }
}

const open: OutreachCase = {
  ...{ state: "open", reasons: [], keptFrom: null, assignedTo: null, snoozedUntil: null, againOn: null },
  ...{ acknowledgedBy: null, closed: null, round: 1 },
}

const rows = [
  row("urgent and booked", { tier: "urgent", is_booked_soon: true }),
  row("asked not to be", { tier: "urgent", kept_from: "asked not to be contacted" }),
  row("died", { kept_from: "died" }),
  row("two reasons", { reasons: 2 }),
  row("two reasons", { reasons: 2, reason: "urine-albumin-due" }),
  row("booked", { is_booked_soon: true }),
  row("snoozed"),
  row("tried today"),
  row("tried before"),
  row("declined"),
]

const cases = new Map<string, OutreachCase>([
  ["snoozed", { ...open, state: "snoozed", snoozedUntil: "2026-11-01" }],
  ["tried today", { ...open, againOn: "2026-11-02" }],
  ["tried before", { ...open, againOn: today }],
  ["declined", { ...open, state: "closed", closed: { on: today, reason: "declined", heldFor: [] } }],
])

test("today's list leaves out who is kept, held, snoozed, waited for, or comes soon and is not urgent", () => {
  const { people, bookedSoon } = peopleToContact({ rows, cases, today })

  expect(people.map(({ person, reasons }) => [person.patient_id, reasons.length])).toEqual([
    ["urgent and booked", 1],
    ["two reasons", 2],
    ["tried before", 1],
  ])
  expect(bookedSoon).toBe(1)
})

test("a past day shows whoever had a reason, but nobody who is kept from contact now", () => {
  const { people } = peopleToContact({ rows, cases: null, today })

  expect(people.map(({ person }) => person.patient_id)).toEqual([
    ...["urgent and booked", "two reasons", "booked", "snoozed", "tried today", "tried before", "declined"],
  ])
})
