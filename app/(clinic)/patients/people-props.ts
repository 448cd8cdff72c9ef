import type { Sort } from "./chosen"
import type { PanelColumn } from "./column-kinds"
import type { Panel } from "./panel"
import type { PatientsView } from "./search-params"

/** What both ways of listing people are given. */
export type PeopleProps = {
  view: PatientsView
  panel: Panel
  rows: Uint32Array
  allColumns: readonly PanelColumn[]
  columns: readonly PanelColumn[]
  sort: Sort | null
  month: string | null
  query: string
  go: (view: PatientsView) => void
  search: (text: string) => void
}
