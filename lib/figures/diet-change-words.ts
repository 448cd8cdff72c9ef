import type { DietChangeSums } from "../questions/diet-change"
import { counted, milligrams, monthShort } from "../speech/format"
import { meanChange } from "../statistics/mean-change"
import { fewestForRate } from "./measure-figure"

export type DietChangeWords = { same: string; asked: string | null }

/**
 * How the mean changed since an earlier month: first who brought records in both and what they changed, then what came of
 * asking others. Where few people are in both, how many there were in place of any change.
 */
export function dietChangeWords(options: {
  sums: DietChangeSums
  earlierAsOf: string
  asOf: string
}): DietChangeWords {
  const { sums } = options
  const [earlier, later] = [monthShort(options.earlierAsOf), monthShort(options.asOf)]
  const both = `${counted(sums.both_n, "person", "people")} with records in both ${earlier} and ${later}`
  const left = sums.earlier_n - sums.both_n
  const joined = sums.later_n - sums.both_n
  const parts = meanChange({
    earlier: { n: sums.earlier_n, sum: sums.earlier_mg },
    later: { n: sums.later_n, sum: sums.later_mg },
    bothEarlier: { n: sums.both_n, sum: sums.both_earlier_mg },
    bothLater: { n: sums.both_n, sum: sums.both_later_mg },
  })
  if (parts === null || sums.both_n < fewestForRate)
    return { same: `${both}, ${left} only in ${earlier}, ${joined} only in ${later}.`, asked: null }
  return {
    same: `${both}: ${moreOrLess(parts.continuing)}.`,
    asked:
      `Who was asked changed: ${moreOrLess(parts.leavers)} by the ${left} only in ${earlier}, ` +
      `${moreOrLess(parts.joiners)} by the ${joined} only in ${later}. ` +
      `Together the mean is ${moreOrLess(parts.change)}.`,
  }
}

function moreOrLess(mg: number): string {
  const size = milligrams(Math.abs(mg))
  if (Math.abs(mg) < 0.5) return size
  return `${size} ${mg < 0 ? "less" : "more"}`
}
