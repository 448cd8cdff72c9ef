import { useMemo } from "react"
import type { Sort } from "./chosen"
import { chosenParts, facetsOf, type Facet } from "./facets"
import { find, searchTexts } from "./find"
import { nameOrder, ordered } from "./order"
import type { Panel } from "./panel"
import type { PatientsView } from "./search-params"
import { sift } from "./sift"

/** The rows a view shows, in its order, with the counts of every facet. Each step is done anew only when its inputs change. */
export function usePanelView(options: {
  panel: Panel
  view: PatientsView
  standingColumn: string | null
  query: string
  sort: Sort | null
}): { facets: readonly Facet[]; counts: ReadonlyMap<string, Uint32Array>; rows: Uint32Array } {
  const { panel, view, standingColumn, query, sort } = options
  const byName = useMemo(() => nameOrder(panel), [panel])
  const facets = useMemo(() => facetsOf(panel, standingColumn), [panel, standingColumn])
  const texts = useMemo(() => searchTexts(panel), [panel])
  const found = useMemo(() => find(texts, query), [texts, query])
  const sifted = useMemo(
    () =>
      sift(
        panel.length,
        facets.map((facet) => ({ facet, chosen: chosenParts(facet, view) })),
        found,
      ),
    [panel, facets, view, found],
  )
  const column = sort?.column
  const keys = useMemo(() => column?.keys(panel), [panel, column])
  const direction = sort?.direction ?? "up"
  const rows = useMemo(() => {
    const isKept = new Uint8Array(panel.length)
    for (const row of sifted.rows) isKept[row] = 1
    const kept = byName.filter((row) => isKept[row] === 1)
    return keys ? ordered(kept, keys, direction) : kept
  }, [panel, byName, sifted, keys, direction])
  return { facets, counts: sifted.counts, rows }
}
