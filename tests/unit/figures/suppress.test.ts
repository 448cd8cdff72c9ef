import { expect, test } from "vitest"
import { suppress } from "../../../lib/figures/suppress"

test("hides a small group and one beside it, whose counts would give it away", () => {
  const sites = [
    [5, 9],
    [20, 15],
    [40, 31],
  ]

  expect(suppress(sites, 11)).toEqual([true, true, false])
})

test("hides nothing where no count is small, and shows a count of nobody", () => {
  const sites = [
    [11, 25],
    [0, 40],
    [0, 0],
  ]

  expect(suppress(sites, 11)).toEqual([false, false, false])
})

// 18 of 20 met: 2 did not
test("hides a group for the few in it who did not meet", () => {
  const sites = [
    [30, 30],
    [30, 40],
    [18, 2],
  ]

  expect(suppress(sites, 11)).toEqual([true, false, true])
})

test("goes on until what is hidden is no small number together", () => {
  const clinicians = [
    [3, 0],
    [4, 0],
    [60, 0],
    [50, 0],
  ]

  expect(suppress(clinicians, 11)).toEqual([true, true, true, false])
})

test("takes no empty group for cover", () => {
  const sites = [
    [0, 0],
    [5, 40],
    [50, 40],
  ]

  expect(suppress(sites, 11)).toEqual([false, true, true])
})

test("refuses a count that is none", () => {
  expect(() => suppress([[1.5]], 11)).toThrow(RangeError)
})

/** Every table of so many groups and counts with cells up to the most. */
function* everyTable(shape: { groups: number; counts: number; most: number }): Generator<number[][]> {
  const { groups, counts, most } = shape
  const cells = groups * counts
  for (let code = 0; code < (most + 1) ** cells; code += 1) {
    const all = Array.from({ length: cells }, (_, cell) => Math.floor(code / (most + 1) ** cell) % (most + 1))
    yield Array.from({ length: groups }, (_, group) => all.slice(group * counts, (group + 1) * counts))
  }
}

const sumsOf = (table: number[][]) =>
  (table[0] ?? []).map((_, place) => table.reduce((sum, row) => sum + (row[place] ?? 0), 0))

/** What somebody sees who knows the clinic's sums, and, by the rule, why what is hidden is hidden. */
const seenOf = (table: number[][], hidden: boolean[]) =>
  `${table.map((row, group) => (hidden[group] === true ? "-" : row.join(" "))).join(",")} ${sumsOf(table).join(" ")}`

// brute force: of all tables that look the same, no small cell may be the same in every one
test.each([
  { groups: 3, counts: 1, most: 14, smallest: 3 },
  { groups: 4, counts: 1, most: 11, smallest: 3 },
  { groups: 2, counts: 2, most: 12, smallest: 4 },
  { groups: 3, counts: 2, most: 6, smallest: 3 },
])(
  "lets nobody who knows the rule work out a small count: $groups by $counts",
  (shape) => {
    const { smallest, most, groups } = shape
    const isAmple = (sum: number) => sum === 0 || sum >= smallest * groups
    const possible = new Map<string, Set<number>[]>()
    const judged: { cells: number[]; seen: string }[] = []
    for (const table of everyTable(shape)) {
      const hidden = suppress(table, smallest)
      const seen = seenOf(table, hidden)
      const cells = table.flat()
      const counts = possible.get(seen) ?? cells.map(() => new Set<number>())
      for (const [cell, count] of cells.entries()) counts[cell]?.add(count)
      possible.set(seen, counts)
      const hiddenSums = sumsOf(table.map((row, group) => (hidden[group] === true ? row : row.map(() => 0))))
      // beyond `most` there would be more tables that look the same than are tried
      const isWhole = hiddenSums.every((sum) => sum <= most)
      if (hidden.includes(true) && isWhole && sumsOf(table).every(isAmple)) judged.push({ cells, seen })
    }
    const given = judged.filter(({ cells, seen }) =>
      cells.some((count, cell) => count > 0 && count < smallest && possible.get(seen)?.[cell]?.size === 1),
    )
    expect(given).toEqual([])
    expect(judged.length).toBeGreaterThan(20)
  },
  60_000,
)
