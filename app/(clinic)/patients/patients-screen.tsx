"use client"

import { useSearchParams } from "next/navigation"
import { use, useDeferredValue, useMemo, useState, useSyncExternalStore } from "react"
import { Screen } from "../../_ui/screen"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { chooseMonth, monthChoices } from "../months"
import { panelColumns } from "./columns"
import { FacetColumn } from "./facet-column"
import { keepHistoryNote, readHistoryNote } from "./history-note"
import type { MeasureWordings } from "./measure-wordings"
import { loadPanel } from "./panel"
import { chosenColumns, chosenSort } from "./chosen"
import { PatientRows } from "./patient-rows"
import { PatientsGrid } from "./patients-grid"
import { parsePatientsAddress, patientsHref, type PatientsView } from "./search-params"
import styles from "./patients-screen.module.css"
import { Toolbar } from "./toolbar"
import { usePanelView } from "./use-panel-view"

/** The whole panel of one month: filters and counts on the left, the people on the right. */
export function PatientsScreen(props: {
  snapshot: SnapshotMeta
  wordings: MeasureWordings
  isListTaken: boolean
}) {
  const { snapshot, wordings } = props
  const params = useSearchParams()
  const view = useMemo(() => parsePatientsAddress(params), [params])
  const chosen = chooseMonth(snapshot, view.month)
  const then = wordings.closed.find((one) => one.asOf === chosen.asOf)
  const measures = then?.measures ?? wordings.today
  const panel = use(loadPanel(chosen.param, snapshot.builtAt))
  const [query, setQuery] = useState(() => readHistoryNote().find)
  const isNarrow = useSyncExternalStore(onWidthChange, () => matchMedia(narrow).matches)

  const columns = useMemo(() => panelColumns(measures), [measures])
  const shownColumns = chosenColumns(columns, view, chosen.isRunning)
  const measure = measures.find((one) => one.id === view.measure) ?? null
  const sort = chosenSort(columns, view)
  const { facets, counts, rows } = usePanelView({
    panel,
    view,
    standingColumn: measure?.column ?? null,
    query: useDeferredValue(query),
    sort,
  })

  const go = (next: PatientsView) => window.history.pushState({ find: query, row: 0 }, "", patientsHref(next))
  const search = (text: string) => {
    setQuery(text)
    keepHistoryNote({ find: text, row: 0 })
  }
  const people = {
    ...{ view, panel, rows, sort, go, query, search },
    allColumns: columns,
    columns: shownColumns,
    month: chosen.param,
  }
  const filters = patientsHref({ ...view, sort: null, columns: [] })
  return (
    <Screen
      aside={
        <FacetColumn
          {...{ view, facets, counts, measures, go, isNarrow }}
          shown={rows.length}
          total={panel.length}
          asOf={chosen.asOf}
          month={chosen.month}
          months={monthChoices(snapshot, (month) => patientsHref({ ...view, month }))}
        />
      }
    >
      <div className={isNarrow ? undefined : styles.people}>
        <Toolbar {...{ ...people, measure, isNarrow }} asOf={chosen.asOf} isListTaken={props.isListTaken} />
        {isNarrow ? <PatientRows key={filters} {...people} /> : <PatientsGrid key={filters} {...people} />}
      </div>
    </Screen>
  )
}

const narrow = "(width < 45rem)"

function onWidthChange(changed: () => void): () => void {
  const media = matchMedia(narrow)
  media.addEventListener("change", changed)
  return () => media.removeEventListener("change", changed)
}
