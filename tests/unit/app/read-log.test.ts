import fc from "fast-check"
import { describe, expect, test } from "vitest"
import {
  pressureField,
  sittingsUntil,
  timeField,
} from "../../../app/(clinic)/patients/[publicId]/enter/log-grid"
import { readGrid, readLines } from "../../../app/(clinic)/patients/[publicId]/enter/read-log"

describe("the grid", () => {
  test("has a week of mornings and evenings that ends on its last day, over the end of a month", () => {
    const sittings = sittingsUntil("2026-03-03")

    expect(sittings.map((one) => one.place)).toEqual(Array.from({ length: 14 }, (_, place) => place))
    expect(sittings[0]).toEqual({ place: 0, day: "2026-02-25", half: "morning" })
    expect(sittings.at(-1)).toEqual({ place: 13, day: "2026-03-03", half: "evening" })
  })

  test("gives a row for each reading of which anything is typed, the second half a minute later", () => {
    const typed = {
      [timeField(1)]: "19:05",
      [pressureField(1, 0, "systolic")]: " 132 ",
      [pressureField(1, 0, "diastolic")]: "84",
      [pressureField(1, 1, "pulse")]: "70",
      [timeField(2)]: "07:00",
    }
    const rows = readGrid(typed, "2026-03-03")

    expect(rows.map((row) => row.cells)).toEqual([
      { taken_at: "2026-02-25T19:05", systolic: "132", diastolic: "84", pulse: "", setting: "home" },
      { taken_at: "2026-02-25T19:05:30", systolic: "", diastolic: "", pulse: "70", setting: "home" },
    ])
    expect(rows[1]?.fieldOf("systolic")).toBe(pressureField(1, 1, "systolic"))
    expect(rows[1]?.fieldOf("taken_at")).toBe(timeField(1))
  })
})

describe("pasted lines", () => {
  test.each([
    ["2026-11-20 08:00 132/84", ["2026-11-20T08:00", "132", "84", ""]],
    ["  2026-11-20T08:00   132 / 84   70 ", ["2026-11-20T08:00", "132", "84", "70"]],
    ["2026-11-20\t08:00\t132/84\t70", ["2026-11-20T08:00", "132", "84", "70"]],
  ])("are read: %j", (text, cells) => {
    const { rows, wrong } = readLines(text)

    expect(wrong).toEqual({})
    expect(rows.map(({ cells: one }) => [one.taken_at, one.systolic, one.diastolic, one.pulse])).toEqual([
      cells,
    ])
  })

  test("that are none are named by their number, empty ones passed over", () => {
    const { wrong } = readLines("\n2026-11-20 08:00 132/84\r\n\r\n132/84\n2026-11-20 132/84")

    expect(wrong["lines"]).toMatch(/^line 4 is not .*; line 5 is not /)
  })

  test("of any text are each a row, empty or named", () => {
    fc.assert(
      fc.property(fc.array(fc.string({ maxLength: 200 })), (lines) => {
        const text = lines.join("\n")
        const { rows, wrong } = readLines(text)
        const written = text.split(/\r?\n/).filter((line) => line.trim() !== "").length

        expect(rows.length).toBeLessThanOrEqual(written)
        if (rows.length < written) expect(wrong["lines"]).toBeDefined()
      }),
    )
  })
})
