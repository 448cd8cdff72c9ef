import { count, percent, percentInterval } from "../speech/format"
import { wilsonInterval } from "../statistics/wilson-interval"
import { fewestForPoint } from "./group-figures"
import { fewestForRate } from "./measure-figure"

/** "12 of 84, 14% (8 to 23)"; of few people their counts alone, of somewhat more the counts and the interval. */
export function shareWords(within: number, total: number): string {
  const counts = `${count(within)} of ${count(total)}`
  const interval = wilsonInterval(within, total)
  if (interval === null || total < fewestForRate) return counts
  if (total < fewestForPoint) return `${counts} (${percentInterval(interval)}%)`
  return `${counts}, ${percent(within / total)} (${percentInterval(interval)})`
}
