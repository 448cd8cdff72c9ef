import { afterEach, beforeEach, expect, test, vi } from "vitest"
import { everyNight, untilNextMs } from "../../../lib/cli/nightly"

beforeEach(() => vi.useFakeTimers({ now: new Date(2026, 9, 31, 12) }))
afterEach(() => vi.useRealTimers())

test("the next night is tonight before two, tomorrow from two on", () => {
  expect(untilNextMs(new Date(2026, 10, 4, 1, 59))).toBe(60_000)
  expect(untilNextMs(new Date(2026, 10, 4, 2, 0))).toBe(24 * 60 * 60_000)
})

test("every night it runs once, also after a night on which it failed", async () => {
  let runs = 0
  const failures: unknown[] = []
  const stop = everyNight(
    () => {
      runs += 1
      return runs === 1 ? Promise.reject(new Error("no database")) : Promise.resolve()
    },
    (error) => failures.push(error),
  )

  await vi.advanceTimersByTimeAsync(3 * 24 * 60 * 60_000)
  stop()
  await vi.advanceTimersByTimeAsync(24 * 60 * 60_000)

  expect(runs).toBe(3)
  expect(failures).toHaveLength(1)
})
