import { expect, it } from "vitest"
import { placeNotes } from "../../../lib/figures/note-places"

const asOfs = ["2025-12-31", "2026-01-31", "2026-02-28"]

function placesOf(...days: string[]) {
  const notes = days.map((onDay, place) => ({
    ...{ id: place, measureId: null, onDay, text: "home cuffs lent out", madeBy: "Ruth Alder" },
    madeAt: new Date("2026-02-28T12:00:00Z"),
  }))
  return placeNotes(asOfs, notes).map(({ along }) => along)
}

it("stand at their day's share of the month, each month as wide as the others", () => {
  expect(placesOf("2025-12-31", "2026-01-31", "2026-02-14", "2026-02-28")).toEqual([0, 0.5, 0.75, 1])
})

it("stand nowhere before the first day or after the last", () => {
  expect(placesOf("2025-12-30", "2026-03-01")).toEqual([null, null])
})

it("keep their numbers in the list, drawn or not", () => {
  const madeAt = new Date("2026-02-28T12:00:00Z")
  const note = { measureId: null, text: "a note", madeBy: "Ruth Alder", madeAt }

  const placed = placeNotes(asOfs, [
    { ...note, id: 7, onDay: "2025-01-01" },
    { ...note, id: 8, onDay: "2026-01-31" },
  ])

  expect(placed.map(({ number, along }) => [number, along])).toEqual([
    [1, null],
    [2, 0.5],
  ])
})
