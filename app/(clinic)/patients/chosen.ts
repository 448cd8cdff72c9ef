import type { PanelColumn } from "./column-kinds"
import { nameColumn } from "./columns"
import type { PatientsView } from "./search-params"

export type Sort = { readonly column: PanelColumn; readonly direction: "up" | "down" }

/** The columns of a view in its order; those shown at first when the view names none. The name always stands first. */
export function chosenColumns(
  columns: readonly PanelColumn[],
  view: PatientsView,
  isRunningMonth: boolean,
): PanelColumn[] {
  const named = view.columns.flatMap((id) => columns.find((column) => column.id === id) ?? [])
  const shown = named.length > 0 ? [...new Set(named)] : firstColumns(columns, isRunningMonth)
  return [
    ...columns.filter((column) => column.id === nameColumn),
    ...shown.filter((column) => column.id !== nameColumn),
  ]
}

/** What is shown unless chosen otherwise. Next visits are known for the running month only. */
export function firstColumns(columns: readonly PanelColumn[], isRunningMonth: boolean): PanelColumn[] {
  return columns.filter((column) => column.isShownFirst && (isRunningMonth || column.id !== "next-visit"))
}

/** The order of a view: `age` upwards, `-age` downwards, by name when it names none. */
export function chosenSort(columns: readonly PanelColumn[], view: PatientsView): Sort | null {
  const [, minus, id] = /^(-?)(.+)$/.exec(view.sort ?? nameColumn) ?? []
  const column = columns.find((one) => one.id === id) ?? columns.find((one) => one.id === nameColumn)
  return column ? { column, direction: minus === "-" ? "down" : "up" } : null
}

/** The order after a press on a column's head: its first direction, then the other. */
export function pressedSort(sort: Sort | null, column: PanelColumn): string | null {
  const isAgain = sort?.column.id === column.id
  const direction = isAgain ? (sort.direction === "up" ? "down" : "up") : column.first
  if (column.id === nameColumn && direction === "up") return null
  return `${direction === "down" ? "-" : ""}${column.id}`
}
