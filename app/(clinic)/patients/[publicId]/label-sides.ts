export type Labelled = { left: number; top: number }

export type LabelSide = "after" | "before" | null

// In percent of the width of a plot: what a label of five characters takes, and where one after a mark would leave the plot.
const labelWidth = 10
const lastRoom = 92

/**
 * On which side of each mark its label stands, in the order of the marks from left to right: after it, before it, or nowhere
 * where both sides are taken. Places in percent of the plot; marks further than `clear` percent apart in height never meet.
 */
export function labelSides(marks: readonly Labelled[], clear: number): LabelSide[] {
  const sides: LabelSide[] = []
  for (const [place, mark] of marks.entries()) {
    const isLevel = (other: Labelled) => Math.abs(other.top - mark.top) < clear
    const gap = (other: Labelled) => Math.abs(other.left - mark.left)
    const earlier = marks.slice(0, place)
    const isFreeAfter =
      mark.left <= lastRoom && marks.slice(place + 1).every((one) => !isLevel(one) || gap(one) > labelWidth)
    const isFreeBefore = earlier.every(
      (one, at) => !isLevel(one) || gap(one) > labelWidth * (sides[at] === "after" ? 2 : 1),
    )
    sides.push(isFreeAfter ? "after" : isFreeBefore ? "before" : null)
  }
  return sides
}
