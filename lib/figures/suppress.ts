/**
 * Which groups of a division have to stay unseen, so that no small number of people can be read or worked out.
 *
 * Shape: one row a group, in an order that does not come from the counts (by name), each with disjoint counts in the
 * same places (met, not met ...); every person in one row, so that the sums over all rows, which are taken to be known,
 * are those of the clinic. The smallest number that may be seen, beside 0. One answer a row: true when it is hidden,
 * wholly. A row is hidden for a small count of its own; then rows with people are hidden in their order until two
 * are, and what is hidden sums to nothing or to at least the smallest number for each of them in every place. The order rather
 * than the size says which, because whoever knows the rule could work out small counts from the size.
 * The clinic's own sums are the caller's: where they are small, hiding every group hides them from nobody.
 * Throws: RangeError when a count is not a whole number of at least 0.
 * Source: the cell size policy of the US Centers for Medicare & Medicaid Services: no cell of 1 to 10, nor anything
 * one could be worked out from; 0 may be shown. How further rows are chosen: common practice, no source.
 * Example: rows 5 and 9, 20 and 15, 40 and 31 with 11: the first and, with it, the second are hidden.
 */
export function suppress(rows: readonly (readonly number[])[], smallest: number): boolean[] {
  const areCounts = rows.every((row) => row.every((count) => Number.isInteger(count) && count >= 0))
  if (!areCounts) throw new RangeError("suppress requires whole counts of at least 0")
  const hidden = new Set(
    rows.flatMap((row, place) => (row.some((count) => count > 0 && count < smallest) ? [place] : [])),
  )
  const further = rows.flatMap((row, place) => (hidden.has(place) || sumOf(row) === 0 ? [] : [place]))
  for (const place of further) {
    if (hidden.size === 0) break
    const sums = columnSums(rows.filter((_, one) => hidden.has(one)))
    const enough = smallest * hidden.size
    if (hidden.size > 1 && sums.every((sum) => sum === 0 || sum >= enough)) break
    hidden.add(place)
  }
  return rows.map((_, place) => hidden.has(place))
}

function columnSums(rows: readonly (readonly number[])[]): number[] {
  const places = Math.max(0, ...rows.map((row) => row.length))
  return Array.from({ length: places }, (_, place) => sumOf(rows.map((row) => row[place] ?? 0)))
}

function sumOf(counts: readonly number[]): number {
  return counts.reduce((sum, count) => sum + count, 0)
}
