import { setTimeout as delay } from "node:timers/promises"

/** Waits until `look` answers something, asking again every few milliseconds; throws with `what` when time is up. */
export async function waitUntil<T>(
  what: string,
  look: () => T | null | undefined | false | Promise<T | null | undefined | false>,
  withinMs = 30_000,
): Promise<T> {
  const until = Date.now() + withinMs
  while (Date.now() < until) {
    const found = await look()
    if (found !== null && found !== undefined && found !== false) return found
    await delay(20)
  }
  throw new Error(`waited ${withinMs} ms for ${what}`)
}
