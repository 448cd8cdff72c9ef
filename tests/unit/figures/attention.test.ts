import { expect, test } from "vitest"
import { attentionOf, unsafeOf } from "../../../lib/figures/attention"
import { figureOf, movesOf } from "../../fixtures/month-figures"

const space = "\u00a0"

function found(...figures: ReturnType<typeof figureOf>[]) {
  return attentionOf(figures).map(({ figure, reason, parts }) => [
    figure.measure.id,
    reason,
    parts.map(({ words }) => words).join(""),
  ])
}

/** 200 people counted in both months, of whom so many gained and lost. */
function moved(id: string, gained: number, lost: number) {
  const [met, notMet] = [100 - lost, 100 - gained]
  return figureOf(id, {
    then: { met: 100, notMet: 100 },
    now: { met: met + gained, notMet: notMet + lost },
    moves: movesOf(id, { gained, lost, met, notMet }),
  })
}

const unsafe = figureOf("dual-ras-blockade", { then: { met: 0, notMet: 9 }, now: { met: 2, notMet: 7 } })
const unmeasured = figureOf("diet-sodium-within-limit", {
  then: { met: 10, notMet: 50, unknown: 40 },
  now: { met: 10, notMet: 50, unknown: 40 },
})

test("says how many slipped and gained where that is more than chance", () => {
  // exact McNemar: twice the lower binomial tail of 8 of 40, p 0.00018
  expect(found(moved("bp-at-target", 8, 32))).toEqual([
    ["bp-at-target", "change", `32${space}slipped above it, 8${space}newly at target: more than chance`],
  ])
})

test("is silent about a change for the better, and about one that chance makes", () => {
  // 9 against 19 has p 0.087: the measure reference, part 3.3
  expect(found(moved("bp-at-target", 32, 8), moved("acr-tested", 9, 19))).toEqual([])
})

test("knows which way is worse where fewer is better", () => {
  const [one] = found(moved("uncontrolled-on-several-classes", 32, 8))

  expect(one?.[1]).toBe("change")
  expect(found(moved("uncontrolled-on-several-classes", 8, 32))).toEqual([])
})

test("judges all measures of the month together", () => {
  // 4 against 14 has p 0.031 by itself; of five measures together it is 0.154
  const others = ["acr-tested", "pressure-measured", "home-monitoring", "sglt2-in-ckd"]

  expect(found(moved("bp-at-target", 4, 14))).toHaveLength(1)
  expect(found(moved("bp-at-target", 4, 14), ...others.map((id) => moved(id, 5, 5)))).toEqual([])
})

test("puts the many unmeasured behind what got worse", () => {
  const order = found(unmeasured, moved("bp-at-target", 8, 32)).map(([id]) => id)

  expect(order).toEqual(["bp-at-target", "diet-sodium-within-limit"])
})

test("names the safety measures that find somebody, however few, those with the most people first", () => {
  const none = figureOf("abrupt-stop", { then: { met: 2, notMet: 9 }, now: { met: 0, notMet: 11 } })
  const more = figureOf("low-pressure-on-drugs", { then: { met: 0, notMet: 9 }, now: { met: 3, notMet: 6 } })
  const order = unsafeOf([none, unsafe, moved("bp-at-target", 8, 32), more]).map(({ measure }) => measure.id)

  expect(order).toEqual(["low-pressure-on-drugs", "dual-ras-blockade"])
})

test("finds nothing where fewer than 20 are counted", () => {
  const few = figureOf("bp-at-target", {
    then: { met: 15, notMet: 4 },
    now: { met: 0, notMet: 10, unknown: 9 },
    moves: movesOf("bp-at-target", { gained: 0, lost: 15, met: 0, notMet: 4 }),
  })

  expect(found(few)).toEqual([])
})
