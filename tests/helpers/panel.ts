import { Bool, Dictionary, Float64, Int32, Table, Utf8, vectorFromArray } from "apache-arrow"
import { panelOf, type Panel } from "../../app/(clinic)/patients/panel"
import { panelColumns } from "../../lib/questions/patient-table"

type Cell = string | number | boolean | null
export type PanelRow = Partial<Record<keyof typeof panelColumns | "bp_at_target", Cell>>

const arrow = {
  text: () => new Dictionary(new Utf8(), new Int32()),
  list: () => new Dictionary(new Utf8(), new Int32()),
  integer: () => new Int32(),
  number: () => new Float64(),
  boolean: () => new Bool(),
}

/** A panel as the browser reads it, of rows that name only the columns that matter; `bp_at_target` is a standing. */
export function panelFor(rows: readonly PanelRow[]): Panel {
  const columns = { ...panelColumns, bp_at_target: "text" as const }
  const vectors = Object.entries(columns).map(([name, type]) => [
    name,
    vectorFromArray(
      rows.map((row) => Object.entries(row).find(([column]) => column === name)?.[1] ?? null),
      arrow[type](),
    ),
  ])
  return panelOf(new Table(Object.fromEntries(vectors)))
}
