import { useRouter } from "next/navigation"
import { useState, type KeyboardEvent } from "react"
import { nameOf } from "./columns"
import { keepHistoryNote } from "./history-note"
import type { PeopleProps } from "./people-props"
import { patientHref } from "./search-params"

/** What a row can do, by key or by menu: open its person, copy itself. */
export function useRowKeys(
  options: PeopleProps & {
    active: number
    move: (index: number) => void
    pageRows: number
    openMenu: (row: number, anchor: Element | null) => void
    rowId: (index: number) => string
  },
) {
  const { panel, rows, columns, active, move, pageRows } = options
  const router = useRouter()
  const [said, say] = useState("")
  const remember = (index: number) => keepHistoryNote({ find: options.query, row: index })
  const openRow = (row: number) => {
    remember(rows.indexOf(row))
    router.push(patientHref(panel.text("public_id", row) ?? "", options.month))
  }
  const copy = (row: number) => {
    const text = columns.map((column) => column.text(panel, row)).join("\t")
    navigator.clipboard.writeText(text).then(
      () => say(`Copied the row of ${nameOf(panel, row)}.`),
      () => say("The browser did not allow copying."),
    )
  }
  const actions: Record<string, (row: number) => void> = {
    ArrowDown: () => move(active + 1),
    ArrowUp: () => move(active - 1),
    PageDown: () => move(active + pageRows),
    PageUp: () => move(active - pageRows),
    Home: () => move(0),
    End: () => move(rows.length - 1),
    Enter: openRow,
    c: copy,
    ContextMenu: (row) => options.openMenu(row, document.getElementById(options.rowId(active))),
  }
  const onKeyDown = (event: KeyboardEvent<HTMLElement>) => {
    if (event.target !== event.currentTarget || event.altKey) return
    const isCopy = event.key.toLowerCase() === "c" && String(window.getSelection()) === ""
    const key = event.shiftKey && event.key === "F10" ? "ContextMenu" : isCopy ? "c" : event.key
    const row = rows[active]
    const action = actions[key]
    if (!action || row === undefined) return
    if ((event.ctrlKey || event.metaKey) && !isCopy) return
    event.preventDefault()
    action(row)
  }
  return { onKeyDown, openRow, copy, remember, said }
}
