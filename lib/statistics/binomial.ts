/**
 * How likely each number of successes is among n independent trials of one chance.
 *
 * Shape: a whole n of at least 0 and a chance in 0..1; n + 1 probabilities that sum to 1, the k-th for k successes.
 * Throws: RangeError for any other n or chance.
 * Source: the ratio of neighbouring binomial terms, (n - k) / (k + 1) x p / (1 - p), from the likeliest number
 * outwards so that nothing underflows; common practice, no source.
 * Example: 2 trials at 0.5 give 0.25, 0.5, 0.25.
 */
export function binomialProbabilities(n: number, chance: number): number[] {
  if (!Number.isInteger(n) || n < 0 || !(chance >= 0 && chance <= 1)) {
    throw new RangeError("binomialProbabilities requires a whole n of at least 0 and a chance in 0..1")
  }
  if (chance === 0 || chance === 1) {
    return Array.from({ length: n + 1 }, (_, k) => (k === n * chance ? 1 : 0))
  }
  const odds = chance / (1 - chance)
  const mode = Math.min(n, Math.floor((n + 1) * chance))
  const above: number[] = []
  for (let k = mode, weight = 1; k < n; k += 1) above.push((weight *= ((n - k) / (k + 1)) * odds))
  const below: number[] = []
  for (let k = mode, weight = 1; k > 0; k -= 1) below.push((weight *= k / (n - k + 1) / odds))
  const weights = [...below.reverse(), 1, ...above]
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return weights.map((weight) => weight / total)
}
