import { expect, test } from "vitest"
import { reportedGroups } from "../../../lib/figures/reported-groups"
import type { GroupCounts } from "../../../lib/questions/measure-groups"

const group = (kind: GroupCounts["kind"], name: string | null, met: number, notMet: number): GroupCounts => ({
  ...{ kind, key: name, name, met, not_met: notMet },
  ...{ excluded: 0, unknown: 0, exception: 0 },
})

test("small groups stay unseen, with one more so that they cannot be worked out, and clinicians are left out", () => {
  const rows = [
    group("clinician", "Dr. One", 40, 40),
    group("site", "Northgate", 5, 20),
    group("site", "Riverside", 30, 40),
    group("site", "Southgate", 50, 60),
    group("sex", "female", 40, 60),
    group("sex", null, 45, 60),
  ]

  const divisions = reportedGroups(rows, { direction: "up", smallest: 11 })

  expect(divisions.map((one) => one.kind)).toEqual(["site", "sex"])
  const [site, sex] = divisions
  expect(site?.groups.find((one) => one.name === "Northgate")?.shown).toBeNull()
  expect(site?.groups.filter((one) => one.shown === null)).toHaveLength(2)
  expect(sex?.groups.map((one) => [one.name, one.shown?.counts.met, one.shown?.rate.rate])).toEqual([
    ["Female", 40, 0.4],
    ["Not recorded", 45, 45 / 105],
  ])
})

test("groups are called as on the screens, and a kind of which nothing is on record is left out", () => {
  const rows = [group("language", "en", 40, 40), group("language", null, 40, 40), group("race", null, 80, 80)]

  const divisions = reportedGroups(rows, { direction: "up", smallest: 11 })

  expect(divisions.map((one) => [one.kind, one.groups.map((of) => of.name)])).toEqual([
    ["language", ["English", "Not recorded"]],
  ])
})
