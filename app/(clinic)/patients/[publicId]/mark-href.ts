import { sourceHref } from "./source-links"

/** A mark of one row opens that row; a mark of several opens the figures, where each row is listed. */
export function markHref(sources: readonly string[], section: string): string {
  const [only, ...others] = sources
  return only !== undefined && others.length === 0 ? sourceHref(only) : `#figures-${section}`
}
