import { expect, test } from "vitest"
import { turns } from "../../../lib/front/turns.mjs"

const hourMs = 3_600_000

test("gives so many turns at once, then says how long to wait, and gives one again when that has passed", () => {
  const exports = turns({ most: 10, perMs: hourMs })
  const first = Array.from({ length: 10 }, () => exports.take("one", 0))

  const refused = exports.take("one", 0)

  expect(first).toEqual(Array(10).fill(0))
  expect(refused).toBe(360)
  expect(exports.take("one", 359_000)).toBe(1)
  expect(exports.take("one", 361_000)).toBe(0)
})

test("one sender's turns are nobody else's", () => {
  const limited = turns({ most: 1, perMs: hourMs })
  limited.take("one", 0)

  expect(limited.take("other", 0)).toBe(0)
  expect(limited.take("one", 0)).toBe(3600)
})

test("never gives more than the most after a long rest", () => {
  const limited = turns({ most: 2, perMs: hourMs })
  limited.take("one", 0)

  const later = [1, 2, 3].map(() => limited.take("one", 100 * hourMs))

  expect(later.map((wait) => wait === 0)).toEqual([true, true, false])
})

test("remembers no more senders than it may, and forgets those longest unused", () => {
  const limited = turns({ most: 1, perMs: hourMs, mostSenders: 2 })
  for (const sender of ["one", "two", "three"]) limited.take(sender, 0)

  expect(limited.take("three", 0)).toBeGreaterThan(0)
  expect(limited.take("one", 0)).toBe(0)
})
