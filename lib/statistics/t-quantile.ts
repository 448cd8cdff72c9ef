const z = 1.959963984540054 // standard normal quantile at 0.975

const exactBelow = 200 // from here on the expansion differs from the exact quantile by less than 1e-11

/**
 * Student's t at 0.975: how many standard errors a two-sided 95% interval reaches.
 *
 * Shape: degrees of freedom, a whole number of at least 1; the answer is a positive number without unit.
 * Throws: RangeError for any other degrees of freedom.
 * Source: Abramowitz M, Stegun IA, 1964, Handbook of Mathematical Functions: the expansion 26.7.5 as
 * starting value, refined by secant steps on the finite sums 26.7.3 and 26.7.4 of the distribution.
 * Example: 3 degrees of freedom give 3.18245.
 */
export function tQuantile975(degrees: number): number {
  if (!Number.isInteger(degrees) || degrees < 1) {
    throw new RangeError("tQuantile975 requires a whole number of degrees of freedom of at least 1")
  }
  if (degrees === 1) return Math.tan(0.475 * Math.PI) // 26.7.3 with one term, solved for t
  const start = expandedQuantile(degrees)
  return degrees < exactBelow ? refine(start, degrees) : start
}

function expandedQuantile(v: number): number {
  const g1 = (z ** 3 + z) / 4 // 26.7.5
  const g2 = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96
  const g3 = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384
  const g4 = (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / 92160
  return z + g1 / v + g2 / v ** 2 + g3 / v ** 3 + g4 / v ** 4
}

function refine(start: number, degrees: number): number {
  let before = start * 0.99
  let now = start
  let missBefore = shareWithin(before, degrees) - 0.95
  for (let step = 0; step < 30; step += 1) {
    const miss = shareWithin(now, degrees) - 0.95
    if (Math.abs(miss) < 1e-15 || miss === missBefore) return now
    const next = now - (miss * (now - before)) / (miss - missBefore)
    before = now
    missBefore = miss
    now = next
  }
  return now
}

/** The share of Student's distribution between -t and t. */
function shareWithin(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees))
  const cosSquared = Math.cos(angle) ** 2
  const isOdd = degrees % 2 === 1
  let term = isOdd ? Math.cos(angle) : 1
  let sum = degrees > 1 ? term : 0
  for (let k = isOdd ? 3 : 2; k < degrees; k += 2) {
    term *= ((k - 1) / k) * cosSquared
    sum += term
  }
  return isOdd
    ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) // 26.7.3
    : Math.sin(angle) * sum // 26.7.4
}
