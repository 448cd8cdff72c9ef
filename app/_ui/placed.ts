type Side = "left" | "right" | "top" | "bottom" | "width" | "height" | "flex-grow"

/**
 * Where a mark stands in its plot. The content security policy lets no style attribute of a page through, whoever wrote
 * it; so the place is named here, and `public/placed.js` gives it to the element as soon as that is there.
 */
export function placed(at: Partial<Record<Side, string | number>>) {
  const sides = Object.entries(at).map(([side, value]) => `${side}:${value}`)
  return { "data-placed": sides.join(";"), suppressHydrationWarning: true } as const
}
