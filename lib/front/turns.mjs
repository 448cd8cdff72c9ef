/**
 * Counts what each sender asks for, in memory: so many in so long, then a refusal that says how long to wait. An entry is
 * a bucket that refills evenly; at most `mostSenders` are remembered, the longest unused go first.
 * @param {{ most: number, perMs: number, mostSenders?: number }} limit
 */
export function turns({ most, perMs, mostSenders = 10_000 }) {
  /** @type {Map<string, { left: number, at: number }>} */
  const buckets = new Map()
  return {
    /**
     * Takes a turn. Answers how many seconds to wait for the next: 0 when this one is taken.
     * @param {string} sender
     * @param {number} nowMs
     */
    take(sender, nowMs) {
      const known = buckets.get(sender) ?? { left: most, at: nowMs }
      const left = Math.min(most, known.left + ((nowMs - known.at) / perMs) * most)
      const isTaken = left >= 1
      buckets.delete(sender)
      buckets.set(sender, { left: isTaken ? left - 1 : left, at: nowMs })
      if (buckets.size > mostSenders) {
        const [oldest] = buckets.keys()
        if (oldest !== undefined) buckets.delete(oldest)
      }
      return isTaken ? 0 : Math.max(1, Math.ceil(((1 - left) * perMs) / most / 1000))
    },
  }
}
