/**
 * Chances of many comparisons made at once, adjusted so that of those below a bound only that share is expected to
 * be false.
 *
 * Shape: p in 0..1, in any order; as many adjusted p back, in the same order, none below its own.
 * Throws: RangeError when a p is not in 0..1.
 * Source: Benjamini Y, Hochberg Y, 1995, Controlling the false discovery rate, J R Stat Soc B 57:289-300.
 * Example: 0.01, 0.04, 0.03 give 0.03, 0.04, 0.04.
 */
export function benjaminiHochberg(chances: readonly number[]): number[] {
  if (!chances.every((p) => p >= 0 && p <= 1)) throw new RangeError("benjaminiHochberg requires p in 0..1")
  const falling = chances.map((p, place) => ({ p, place })).sort((a, b) => b.p - a.p)
  const adjusted = chances.map(() => 1)
  let least = 1
  for (const [step, { p, place }] of falling.entries()) {
    least = Math.min(least, p * (chances.length / (chances.length - step)))
    adjusted[place] = least
  }
  return adjusted
}
