import { expect, test } from "vitest"
import { forMeeting, inOrder, isOverdue, type MeasureAction } from "../../../lib/domain/measure-actions"

const base: MeasureAction = {
  ...{ id: 1, measureId: "acr-tested", month: "2026-09", kind: "action", text: "Order the urine" },
  ...{ owner: "Nurses", ownerId: null, dueOn: null, state: "open", outcome: null, version: 1 },
  ...{ madeBy: "Lead", madeAt: new Date("2026-09-30T10:00:00Z"), closedBy: null, closedAt: null },
}

const open = (id: number, dueOn: string | null, more: Partial<MeasureAction> = {}) => ({
  ...base,
  ...{ id, dueOn },
  ...more,
})

const closed = (id: number, on: string, state: "done" | "dropped" = "done") => ({
  ...base,
  ...{ id, state, closedAt: new Date(`${on}T10:00:00Z`), closedBy: "Lead" },
})

const ids = (actions: readonly MeasureAction[]) => actions.map((one) => one.id)

test("is overdue from the day after it was due, and never once it is closed or without a day", () => {
  expect(isOverdue(open(1, "2026-10-15"), "2026-10-15")).toBe(false)
  expect(isOverdue(open(1, "2026-10-15"), "2026-10-16")).toBe(true)
  expect(isOverdue(open(1, null), "2099-01-01")).toBe(false)
  expect(isOverdue({ ...closed(1, "2026-10-20"), dueOn: "2026-10-15" }, "2026-10-21")).toBe(false)
})

test("puts the open first by the day they are due, then the closed, latest first", () => {
  const listed = [
    closed(1, "2026-10-01"),
    open(2, null),
    open(3, "2026-11-01"),
    open(4, "2026-10-01"),
    closed(5, "2026-10-09", "dropped"),
    open(6, "2026-10-01"),
  ]

  expect(ids(inOrder(listed))).toEqual([4, 6, 3, 2, 5, 1])
})

test("a meeting looks at what earlier months left open, and counts what was done since", () => {
  const log = [
    open(1, "2026-11-20"),
    open(2, "2026-10-01", { month: "2026-08" }),
    open(3, null, { kind: "decision" }),
    open(4, null, { month: "2026-10" }),
    closed(5, "2026-09-30"),
    closed(6, "2026-10-01"),
    closed(7, "2026-10-02", "dropped"),
    open(8, null, { month: "2026-11" }),
  ]

  const meeting = forMeeting(log, "2026-10")

  expect(ids(meeting.openBefore)).toEqual([2, 1])
  expect(meeting.doneSince).toBe(1)
  expect(ids(meeting.ofMonth)).toEqual([4])
})
