/** A stream of pseudo-random draws: the same seed and labels give the same draws on every machine. */
export type Random = {
  /** Uniform in [0, 1). */
  unit: () => number
  /** Uniform in [low, high). */
  between: (low: number, high: number) => number
  /** A whole number from low to high, both included. */
  whole: (low: number, high: number) => number
  normal: (mean: number, sd: number) => number
  /** A waiting time with this mean. */
  wait: (mean: number) => number
  chance: (probability: number) => boolean
  pick: <T>(list: readonly T[]) => T
  /** Picks by the weight each entry carries. */
  weigh: <T extends { weight: number }>(list: readonly T[]) => T
}

/**
 * Opens a stream named by a seed and labels ("patient", 17), so that each person's draws do not depend on how
 * many others are drawn. Generator: sfc32 (C. Doty-Humphrey, PractRand), seeded by FNV-1a hashes.
 * Only `Math.log` and `Math.sqrt` are used: trigonometric functions may differ in the last digit between engines.
 */
export function openRandom(seed: number, ...labels: readonly (string | number)[]): Random {
  const name = [seed, ...labels].join("/")
  const next = sfc32(hash(name, 1), hash(name, 2), hash(name, 3), hash(name, 4))
  for (let i = 0; i < 12; i++) next()

  const unit = () => next() / 4294967296
  const between = (low: number, high: number) => low + (high - low) * unit()
  const whole = (low: number, high: number) => low + Math.floor((high - low + 1) * unit())
  const chance = (probability: number) => unit() < probability
  const wait = (mean: number) => -mean * Math.log(1 - unit())

  let spare: number | null = null
  const standardNormal = () => {
    if (spare !== null) {
      const kept = spare
      spare = null
      return kept
    }
    // Marsaglia's polar method.
    for (;;) {
      const x = 2 * unit() - 1
      const y = 2 * unit() - 1
      const square = x * x + y * y
      if (square === 0 || square >= 1) continue
      const scale = Math.sqrt((-2 * Math.log(square)) / square)
      spare = y * scale
      return x * scale
    }
  }
  const normal = (mean: number, sd: number) => mean + sd * standardNormal()

  const pick = <T>(list: readonly T[]): T => {
    const chosen = list[Math.floor(unit() * list.length)]
    if (chosen === undefined) throw new RangeError("pick requires at least one entry")
    return chosen
  }
  const weigh = <T extends { weight: number }>(list: readonly T[]): T => {
    let rest = unit() * list.reduce((sum, entry) => sum + entry.weight, 0)
    for (const entry of list) {
      rest -= entry.weight
      if (rest < 0) return entry
    }
    return pick(list)
  }

  return { unit, between, whole, normal, wait, chance, pick, weigh }
}

function sfc32(a: number, b: number, c: number, counter: number): () => number {
  return () => {
    const result = (a + b + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = ((c << 21) | (c >>> 11)) + result
    c |= 0
    return result >>> 0
  }
}

function hash(text: string, salt: number): number {
  let h = 2166136261 ^ Math.imul(salt, 2654435761)
  for (let i = 0; i < text.length; i++) {
    h ^= text.charCodeAt(i)
    h = Math.imul(h, 16777619)
  }
  h ^= h >>> 16
  h = Math.imul(h, 2246822507)
  h ^= h >>> 13
  return h | 0
}
