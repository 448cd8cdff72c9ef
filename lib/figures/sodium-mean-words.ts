import { milligramInterval, milligrams } from "../speech/format"
import { tInterval } from "../statistics/t-interval"
import { fewestForMean, pairedWords } from "./diet-figure"

type Sample = { n: number; mean: number | null; sd: number | null }

/** "2,450 mg (2,300 to 2,600)"; of fewer than five people without its interval, of nobody nothing. */
export function sodiumMeanWords({ n, mean, sd }: Sample): string {
  if (mean === null) return ""
  const interval = n < fewestForMean ? null : tInterval({ n, mean, sd })
  return `${milligrams(mean)}${interval ? ` (${milligramInterval(interval)})` : ""}`
}

/** "260 mg less (170 to 350)"; of fewer than five people none. */
export function sodiumChangeWords({ n, mean, sd }: Sample): string {
  if (mean === null) return ""
  if (n < fewestForMean) return "few people"
  return pairedWords({ n, changeMg: mean, interval: tInterval({ n, mean, sd }) })
}
