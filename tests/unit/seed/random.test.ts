import { describe, expect, it } from "vitest"
import { openRandom } from "../../../seed/random"

function draws(count: number, draw: () => number): number[] {
  return Array.from({ length: count }, draw)
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

describe("the seeded stream", () => {
  it("repeats itself for the same seed and labels and for no other", () => {
    const first = draws(50, openRandom(7, "patient", 12).unit)

    expect(draws(50, openRandom(7, "patient", 12).unit)).toEqual(first)
    expect(draws(50, openRandom(7, "patient", 13).unit)).not.toEqual(first)
    expect(draws(50, openRandom(8, "patient", 12).unit)).not.toEqual(first)
  })

  it("draws the same numbers on every machine", () => {
    const random = openRandom(1, "fixed")

    // Frozen when written: a change here changes every demo clinic.
    expect(draws(4, () => random.whole(0, 999_999))).toEqual([967662, 217250, 519967, 319324])
  })

  it("fills [0, 1) evenly", () => {
    const random = openRandom(3, "even")
    const tenths = new Array<number>(10).fill(0)
    for (const value of draws(20_000, random.unit)) {
      const tenth = Math.floor(value * 10)
      tenths[tenth] = (tenths[tenth] ?? 0) + 1
    }

    // Binomial: 2,000 expected, standard deviation 42; five of them either way.
    expect(Math.min(...tenths)).toBeGreaterThan(1790)
    expect(Math.max(...tenths)).toBeLessThan(2210)
  })

  it("draws a normal distribution with the mean and spread asked for", () => {
    const random = openRandom(3, "normal")
    const values = draws(20_000, () => random.normal(130, 15))
    const mean = meanOf(values)
    const spread = Math.sqrt(meanOf(values.map((value) => (value - mean) ** 2)))
    const withinOne = values.filter((value) => Math.abs(value - 130) < 15).length / values.length

    expect(mean).toBeCloseTo(130, 0)
    expect(spread).toBeGreaterThan(14.6)
    expect(spread).toBeLessThan(15.4)
    // 68.27 % lie within one standard deviation (any table of the normal distribution).
    expect(withinOne).toBeGreaterThan(0.67)
    expect(withinOne).toBeLessThan(0.695)
  })

  it("picks by weight", () => {
    const random = openRandom(3, "weight")
    const words = [
      { word: "often", weight: 9 },
      { word: "seldom", weight: 1 },
    ]
    const seldom = draws(10_000, () => (random.weigh(words).word === "seldom" ? 1 : 0))

    expect(meanOf(seldom)).toBeGreaterThan(0.085)
    expect(meanOf(seldom)).toBeLessThan(0.115)
  })

  it("reaches both ends of a whole range and refuses an empty list", () => {
    const random = openRandom(3, "whole")

    expect(new Set(draws(200, () => random.whole(2, 4)))).toEqual(new Set([2, 3, 4]))
    expect(() => random.pick([])).toThrow(RangeError)
  })
})
