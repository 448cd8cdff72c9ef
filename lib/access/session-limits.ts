const minuteMs = 60_000

/** How long a session lasts; stricter than the 30 minutes and 12 hours of NIST SP 800-63B for its second level (from memory). */
export const sessionLimits = {
  idleMs: 15 * minuteMs,
  absoluteMs: 12 * 60 * minuteMs,
  /** To give the second factor after the first. */
  factorMs: 5 * minuteMs,
  /** How long a proof of identity serves for what is delicate. */
  provenMs: 5 * minuteMs,
  /** And for taking lists of people out, which is daily work. */
  listsProvenMs: 60 * minuteMs,
  /** A sign of life is written down at most this often. */
  seenEveryMs: minuteMs,
  /** Of one person; the oldest ends when one more begins. */
  atOnce: 3,
} as const
