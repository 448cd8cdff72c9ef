import { counted, month } from "../speech/format"
import { fewestForMean, pairedTitle, pairedWords, type DietFigure, type DietSeries } from "./diet-figure"

/**
 * Whether sodium is falling, in one sentence: the paired change of the headline series, or of the first other series where too few
 * of the headline's people have a pair.
 */
export function sodiumAnswer(figure: DietFigure): string {
  const { name, now, paired } = answering(figure)
  if (!paired) return `No one with ${name} in ${month(now.asOf)} has an earlier record to compare with.`
  const people = `${counted(paired.n, "person", "people")} with ${name} this month and 3 to 15 months before`
  if (paired.n < fewestForMean) return `${pairedTitle(paired)}: ${people}.`
  return `${pairedTitle(paired)}: ${people}, ${pairedWords(paired)} a day on average.`
}

function answering({ series, headline }: DietFigure): DietSeries {
  return series.find(({ paired }) => paired !== null && paired.n >= fewestForMean) ?? headline
}
