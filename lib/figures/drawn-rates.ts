import type { InMonthFigure } from "./in-month-figure"
import { fewestForRate } from "./measure-figure"

/**
 * The rates of the months by themselves as they are drawn: of judged months, and of months that count at least 20. The share
 * of a handful goes up and down with one person and would look like a finding (common practice, no source). One month alone
 * shows no course, and is not drawn either.
 */
export function drawnRates({ points, rates }: Pick<InMonthFigure, "points" | "rates">): (number | null)[] {
  const drawn = points.map(({ value, isJudged }, place) =>
    isJudged || (rates[place]?.total ?? 0) >= fewestForRate ? value : null,
  )
  return drawn.filter((value) => value !== null).length < 2 ? drawn.map(() => null) : drawn
}
