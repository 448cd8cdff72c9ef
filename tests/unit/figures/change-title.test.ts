import { expect, test } from "vitest"
import { changeTitle } from "../../../lib/figures/change-title"
import { causeWords, sinceMonth } from "../../../lib/speech/change-words"
import { figureOf, movesOf } from "../../fixtures/month-figures"

const space = "\u00a0"

test("says how far the rate moved, and since when", () => {
  const figure = figureOf("bp-at-target", { then: { met: 50, notMet: 50 }, now: { met: 55, notMet: 45 } })

  expect(changeTitle(figure)).toBe(`Up 5.0${space}points since September`)
})

test("counts the people where they are few", () => {
  const figure = figureOf("bp-at-target", { then: { met: 5, notMet: 5 }, now: { met: 6, notMet: 4 } })

  expect(changeTitle(figure)).toBe("6 of 10, from 5 of 10 in September")
})

test("names the year of a month that is a year back or more", () => {
  expect(sinceMonth("2025-11-30", "2026-10-31")).toBe("November")
  expect(sinceMonth("2025-10-31", "2026-10-31")).toBe("October 2025")
})

test("calls a new fact clinical news and nothing else", () => {
  const causes = ["news", "time", "panel", "exclusion", "exception", "population", "measured"] as const
  const said = causes.filter((cause) => causeWords("gained", cause).includes("clinical news"))

  expect(said).toEqual(["news"])
})

test("keeps the people of each cause of each change", () => {
  const moves = movesOf("bp-at-target", { gained: 4, lost: 3, met: 40, notMet: 20 })
  const figure = figureOf("bp-at-target", {
    then: { met: 43, notMet: 24 },
    now: { met: 44, notMet: 23 },
    moves,
  })

  expect(figure.change?.causes).toEqual([
    { kind: "gained", cause: "news", people: 4 },
    { kind: "lost", cause: "news", people: 3 },
  ])
})
