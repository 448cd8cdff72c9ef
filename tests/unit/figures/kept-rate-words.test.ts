import { expect, test } from "vitest"
import { keptRateWords } from "../../../lib/figures/kept-rate-words"
import { figureOf, movesOf } from "../../fixtures/month-figures"

const moves = movesOf("bp-at-target", { gained: 4, lost: 3, met: 40, notMet: 20 })

test("nothing is said where the rates are of the people of the moves", () => {
  const figure = figureOf("bp-at-target", {
    then: { met: 43, notMet: 24 },
    now: { met: 44, notMet: 23 },
    moves,
  })

  expect(keptRateWords(figure)).toBeNull()
})

test.each([
  ["earlier", { met: 44, notMet: 24 }, { met: 44, notMet: 23 }, "The September 2026 rate is as kept"],
  ["later", { met: 43, notMet: 24 }, { met: 44, notMet: 24 }, "The October 2026 rate is as kept"],
  [
    "both",
    { met: 44, notMet: 23 },
    { met: 45, notMet: 23 },
    "The September 2026 and October 2026 rates are as kept",
  ],
])("where the %s was kept with other people, it is named", (_which, then, now, words) => {
  const said = keptRateWords(figureOf("bp-at-target", { then, now, moves }))

  expect(said).toBe(
    `${words} at the closing, the people are as computed now: the parts need not sum to the change.`,
  )
})
