import { expect, test } from "vitest"
import { viewsUnder, type View } from "../../../lib/engine/views"

function view(name: string, sql: string, ...reads: string[]): View {
  return { name, kind: "table", sql, reads: new Set(reads) }
}

const views = [
  view("facts", "select day from loaded", "loaded"),
  view(
    "as_of_windows",
    "select\n  s.bp_months as pressure_after,\n  s.egfr_months as egfr_after\nfrom",
    "settings",
  ),
  view("pressure_at", "select w.pressure_after", "facts", "as_of_windows"),
  view("kidney_at", "select w.egfr_after", "facts", "as_of_windows"),
  view("limits", "select s.bp_target", "settings"),
  view("aside", "select s.bp_target", "settings"),
  view("patient_month", "select 1", "pressure_at", "kidney_at", "limits"),
]
const inSnapshot = new Set(views.map((one) => one.name))

function runUnder(columns: string[], kept: ReadonlySet<string> = inSnapshot): string[] {
  return viewsUnder(views, { columns, inSnapshot: kept }).map((one) => one.name)
}

test("runs what reads the setting and what builds on it, as far as the wide row needs them", () => {
  expect(runUnder(["bp_target"])).toEqual(["limits", "patient_month"])
})

test("follows a window only to those who read that window", () => {
  expect(runUnder(["bp_months"])).toEqual(["as_of_windows", "pressure_at", "patient_month"])
  expect(runUnder(["egfr_months"])).toEqual(["as_of_windows", "kidney_at", "patient_month"])
})

test("runs also what is read and not kept, and what that reads", () => {
  const kept = new Set(["facts", "as_of_windows", "kidney_at", "limits", "patient_month"])

  expect(runUnder(["bp_target"], kept)).toEqual(["pressure_at", "limits", "patient_month"])
})

test("runs nothing when nothing changes", () => {
  expect(runUnder([])).toEqual([])
  expect(runUnder(["bp_targets"])).toEqual([])
})
