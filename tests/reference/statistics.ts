export type Interval = { low: number; high: number }

const z95 = 1.959963984540054

/** 95% score interval of a share. Source: Wilson 1927, Journal of the American Statistical Association 22:209. */
export function wilson(met: number, all: number): Interval {
  const share = met / all
  const centre = (share + z95 ** 2 / (2 * all)) / (1 + z95 ** 2 / all)
  const half =
    (z95 * Math.sqrt((share * (1 - share)) / all + z95 ** 2 / (4 * all ** 2))) / (1 + z95 ** 2 / all)
  return { low: Math.max(0, centre - half), high: Math.min(1, centre + half) }
}

/** 95% t interval of a mean; null for fewer than 2 values. */
export function tInterval(values: number[]): Interval | null {
  const n = values.length
  if (n < 2) return null
  const mean = values.reduce((sum, value) => sum + value, 0) / n
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1)
  const half = t975(n - 1) * Math.sqrt(variance / n)
  return { low: mean - half, high: mean + half }
}

/** The 97.5% point of Student's t: the density summed by Simpson's rule, the point found by halving. */
export function t975(degreesOfFreedom: number): number {
  let low = 0
  let high = 13
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2
    if (areaFromZero(middle, degreesOfFreedom) < 0.475) low = middle
    else high = middle
  }
  return (low + high) / 2
}

function areaFromZero(end: number, degreesOfFreedom: number): number {
  const pieces = 2000
  const width = end / pieces
  const scale = densityScale(degreesOfFreedom)
  let sum = 0
  for (let piece = 0; piece <= pieces; piece += 1) {
    const weight = piece === 0 || piece === pieces ? 1 : piece % 2 === 1 ? 4 : 2
    sum += weight * scale * (1 + (piece * width) ** 2 / degreesOfFreedom) ** (-(degreesOfFreedom + 1) / 2)
  }
  return (sum * width) / 3
}

/** gamma((v + 1) / 2) / gamma(v / 2) / sqrt(v pi), from v = 1 or 2 upward by gamma(x + 1) = x gamma(x). */
function densityScale(degreesOfFreedom: number): number {
  const isOdd = degreesOfFreedom % 2 === 1
  let ratio = isOdd ? 1 / Math.sqrt(Math.PI) : Math.sqrt(Math.PI) / 2
  for (let v = isOdd ? 1 : 2; v < degreesOfFreedom; v += 2) ratio *= (v + 1) / v
  return ratio / Math.sqrt(degreesOfFreedom * Math.PI)
}
