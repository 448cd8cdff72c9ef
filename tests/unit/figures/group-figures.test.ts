import { expect, test } from "vitest"
import { funnelFigure } from "../../../lib/figures/funnel-figure"
import { groupFigures } from "../../../lib/figures/group-figures"
import { groupTable } from "../../../lib/figures/group-table"
import { groupName } from "../../../lib/figures/group-words"
import type { GroupCounts, GroupKind } from "../../../lib/questions/measure-groups"

const group = (kind: GroupKind, key: string | null, [met, not_met, unknown = 0]: number[]): GroupCounts => ({
  ...{ kind, key, name: key, excluded: 0, exception: 0 },
  ...{ met: met ?? 0, not_met: not_met ?? 0, unknown },
})

const sites = [
  group("site", "Hillside", [6, 4]),
  group("site", "Northgate", [56, 14]),
  group("site", "Riverside", [48, 22, 10]),
  group("site", null, [0, 12]),
]

// Newcombe 1998, Table II, (a): 56/70 against 48/80
test("compares a group with everybody else of the clinic, itself left out", () => {
  const [division] = groupFigures({ direction: "up", groups: sites.slice(1, 3), smallest: null })

  expect(division?.groups[0]).toMatchObject({
    name: "Northgate",
    rate: { met: 56, total: 70 },
    difference: {
      difference: expect.closeTo(0.2, 4),
      low: expect.closeTo(0.0524, 4),
      high: expect.closeTo(0.3339, 4),
    },
  })
})

test("compares no group of few people, and no clinician", () => {
  const clinicians = [group("clinician", "S-1", [40, 20]), group("clinician", "S-2", [30, 30])]

  const divisions = groupFigures({ direction: "up", groups: [...clinicians, ...sites], smallest: null })

  expect(
    divisions.map(({ kind, groups }) => [kind, groups.map(({ difference }) => difference !== null)]),
  ).toEqual([
    ["clinician", [false, false]],
    ["site", [false, true, true, false]],
  ])
})

test("leaves out a kind of which nothing is recorded", () => {
  const unasked = [group("race", null, [40, 20]), group("ethnicity", "declined", [3, 2])]

  const divisions = groupFigures({ direction: "up", groups: unasked, smallest: null })

  expect(divisions.map(({ kind }) => kind)).toEqual(["ethnicity"])
})

test("shows who sees counts only no small group, nor what would give it away, nor a clinician", () => {
  const largest = group("site", "Westbrook", [50, 40])
  const groups = [group("clinician", "S-1", [400, 200]), ...sites.slice(0, 3), largest, ...sites.slice(3)]

  const divisions = groupFigures({ direction: "up", groups, smallest: 11 })

  expect(divisions).toHaveLength(1)
  expect(divisions[0]?.groups.map(({ name, rate }) => [name, rate?.met ?? null])).toEqual([
    ["Hillside", null],
    ["Northgate", null],
    ["Riverside", null],
    ["Westbrook", 50],
    ["No site on record", 0],
  ])
  expect(divisions[0]?.groups[0]?.difference).toBeNull()
})

test("gives a group below 20 its counts, below 30 its interval, and from 30 on its rate", () => {
  const groups = [
    group("sex", "female", [9, 10]),
    group("sex", "male", [15, 14]),
    group("sex", "unknown", [15, 15]),
  ]
  const [division] = groupFigures({ direction: "up", groups, smallest: null })
  if (!division) throw new Error("no division by sex")

  const { columns, rows } = groupTable(division, "31 Oct 2026")

  expect(new Set(columns).size).toBe(columns.length)
  expect(rows.map((row) => row.map((cell) => cell !== ""))).toEqual([
    [true, true, true, false, false, false, false],
    [true, true, true, false, true, false, true],
    [true, true, true, true, true, true, true],
  ])
})

test("says nothing of a hidden group but that it is not shown", () => {
  const [division] = groupFigures({ direction: "up", groups: sites, smallest: 11 })
  if (!division) throw new Error("no division by site")

  expect(groupTable(division, "31 Oct 2026").rows[0]).toEqual([
    "Hillside",
    "not shown",
    "not shown",
    "",
    "",
    "",
    "",
  ])
})

test("calls groups by the words of the trade, a language by its name", () => {
  expect(groupName("language", "vi")).toBe("Vietnamese")
  expect(groupName("language", "not a tag")).toBe("Not a tag")
  expect(groupName("race", "more than one")).toBe("More than one")
  expect(groupName("race", null)).toBe("Not asked")
  expect(groupName("sex", "female")).toBe("Female")
})

test("orders languages by the names they are shown with, those without one last", () => {
  const groups = [
    group("language", "en", [30, 10]),
    group("language", "fa", [3, 1]),
    group("language", "fil", [2, 2]),
  ]

  const [division] = groupFigures({
    direction: "up",
    groups: [group("language", null, [4, 4]), ...groups],
    smallest: null,
  })

  expect(division?.groups.map(({ name }) => name)).toEqual(["English", "Filipino", "Persian", "Not recorded"])
})

// the six units of the dispersion fixture: phi 2.325
const six = [
  [31, 21],
  [22, 19],
  [44, 14],
  [18, 11],
  [37, 10],
  [25, 24],
].map((counts, place) => group("clinician", `Dr ${String.fromCharCode(65 + place)}`, counts))

test("draws clinicians that vary more than chance gives within wider lines, and says so", () => {
  const [division] = groupFigures({
    direction: "up",
    groups: [...six, group("clinician", null, [0, 30])],
    smallest: null,
  })
  const figure = division ? funnelFigure(division) : null

  expect(figure?.points).toHaveLength(6)
  expect(figure?.target).toBeCloseTo(0.6413, 4)
  expect(figure?.words).toContain("more than chance alone gives (phi 2.3)")
  expect(figure?.words).toContain("case mix is not adjusted for")
  expect(figure?.words).not.toContain("barely estimable")
})

test("says that the limits of fewer than five clinicians are barely estimable, and draws one alone not at all", () => {
  const drawn = (groups: GroupCounts[]) => {
    const [division] = groupFigures({ direction: "up", groups, smallest: null })
    return division ? funnelFigure(division) : null
  }

  expect(drawn(six.slice(0, 4))?.words).toContain("Of 4\u00a0clinicians the limits are barely estimable.")
  expect(drawn(six.slice(0, 1))).toBeNull()
})

test("gives lines that close in with every further person counted", () => {
  const [division] = groupFigures({ direction: "up", groups: six, smallest: null })
  const widths =
    (division ? funnelFigure(division) : null)?.limits.map(({ wide }) => wide.high - wide.low) ?? []

  expect(widths.length).toBeGreaterThan(40)
  expect(widths.filter((width, place) => width > (widths[place - 1] ?? Infinity) + 1e-9)).toEqual([])
})

test("leaves clinicians with fewer than 20 counted out of the funnel, and says how many", () => {
  // 20 as for any percentage: common practice, no source
  const small = group("clinician", "Dr Few", [10, 9])
  const figureOf = (groups: GroupCounts[]) => {
    const [division] = groupFigures({ direction: "up", groups, smallest: null })
    return division ? funnelFigure(division) : null
  }

  expect(figureOf([...six, small])?.points.map(({ name }) => name)).not.toContain("Dr Few")
  expect(figureOf([...six, small])?.target).toBe(figureOf(six)?.target)
  expect(figureOf([...six, small])?.words).toContain(
    "Not drawn: 1\u00a0clinician with fewer than 20 people counted.",
  )
  expect(figureOf([...six.slice(0, 1), small])).toBeNull()
})
