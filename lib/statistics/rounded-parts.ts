/**
 * Rounds parts to a step so that they still sum to their rounded whole, for a split that is shown to a person.
 *
 * Shape: parts of either sign and the step, in one unit; as many parts back, each a multiple of the step and less
 * than one step from where it was. The steps left over go to the parts that were cut most (largest remainder).
 * Throws: RangeError when the step is not positive.
 * Source: largest remainder method, common practice, no source.
 * Example: 0.64, -0.58, -0.61, 0.92 with step 0.1 gives 0.7, -0.6, -0.6, 0.9, which sum to 0.4, the whole being 0.37.
 */
export function roundedParts(parts: readonly number[], step: number): number[] {
  if (!(step > 0)) throw new RangeError("roundedParts requires a step above 0")
  const exact = parts.map((part) => part / step)
  const cut = exact.map(Math.floor)
  const whole = Math.floor(exact.reduce((sum, part) => sum + part, 0) + 0.5)
  const leftOver = whole - cut.reduce((sum, part) => sum + part, 0)
  const byRemainder = exact
    .map((part, place) => ({ place, remainder: part - Math.floor(part) }))
    .sort((a, b) => b.remainder - a.remainder || a.place - b.place)
  const raised = new Set(byRemainder.slice(0, leftOver).map(({ place }) => place))
  return cut.map((part, place) => (part + (raised.has(place) ? 1 : 0)) * step)
}
