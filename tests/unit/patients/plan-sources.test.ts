import { expect, test } from "vitest"
import type { PatientAnswers } from "../../../app/(clinic)/patients/[publicId]/patient-answers"
import { planSources } from "../../../app/(clinic)/patients/[publicId]/plan-sources"
import type { WatchedPlan } from "../../../lib/questions/plan-watch"

const plan: WatchedPlan = {
  ...{ public_id: "a", given_name: null, family_name: null, topic: "ras_blocker", made_on: "2026-01-02" },
  ...{ due_on: "2026-03-02", started_on: "2026-02-01", state: "started", tests: "missing" },
  ...{ potassium_on: "2026-02-10", creatinine_on: null },
}

type Course = PatientAnswers["line"]["courses"][number]
type Lab = PatientAnswers["line"]["labs"][number]

const course: Course = {
  ...{
    drug: "ramipril",
    class: "ras_blocker",
    kind: "ace_inhibitor",
    started_on: "2026-02-01",
    ends_on: null,
  },
  ...{ is_active: true, stop_reason: null, step_days: ["2026-02-01"], step_doses: [5], step_units: ["mg"] },
  ...{ step_times: [1], sources: ["medications:1:2"] },
}
const line = {
  courses: [
    course,
    { ...course, class: "beta_blocker", kind: null, sources: ["medications:1:3"] },
    { ...course, started_on: "2025-01-01", step_days: ["2025-01-01"], sources: ["medications:1:4"] },
  ],
  labs: [
    lab({ series: "potassium", day: "2026-02-10", sources: ["labs:1:5"] }),
    lab({ series: "potassium", day: "2026-03-30", sources: ["labs:1:6"] }),
    lab({ series: "egfr", day: "2026-02-10", sources: ["labs:1:7"] }),
  ],
}

function lab(own: Pick<Lab, "series" | "day" | "sources">): Lab {
  return { number: 4, comparator: null, reported: "4", remark: null, is_used: true, ...own }
}

test("a plan that was followed leads to the order that began and the tests after it, and to no other row", () => {
  expect(planSources(plan, line)).toEqual(["medications:1:2", "labs:1:5"])
  expect(planSources({ ...plan, creatinine_on: "2026-02-10" }, line)).toContain("labs:1:7")
  expect(planSources({ ...plan, topic: "pressure" }, line)).toContain("medications:1:3")
})

test("one that was not followed leads to no row", () => {
  expect(planSources({ ...plan, started_on: null, potassium_on: null }, line)).toEqual([])
})
