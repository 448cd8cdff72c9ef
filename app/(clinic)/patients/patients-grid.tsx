import {
  columnOrderingFeature,
  columnVisibilityFeature,
  createColumnHelper,
  metaHelper,
  tableFeatures,
  useTable,
} from "@tanstack/react-table"
import { useVirtualizer } from "@tanstack/react-virtual"
import { useMemo, useRef, useState, type MouseEvent } from "react"
import { count } from "../../../lib/speech/format"
import type { PanelColumn } from "./column-kinds"
import { GridHead } from "./grid-head"
import { GridRow } from "./grid-row"
import { readHistoryNote } from "./history-note"
import { NobodyFound } from "./nobody-found"
import styles from "./patients-grid.module.css"
import type { PeopleProps } from "./people-props"
import { RowMenu, useRowMenu } from "./row-menu"
import { usePrinting } from "./use-printing"
import { useRowKeys } from "./use-row-keys"

const rowHeight = 32
const headHeight = 48
const menuWidth = 26
/** As many people as go on paper at once, about 60 sheets. */
const mostPrinted = 2000

/** Which row of the panel a row of the table is; the values stay in the panel's columns. */
type GridRowData = { readonly row: number }

const features = tableFeatures({
  columnOrderingFeature,
  columnVisibilityFeature,
  columnMeta: metaHelper<{ column: PanelColumn }>(),
})
const helper = createColumnHelper<typeof features, GridRowData>()

/**
 * The people as a dense table. Only the rows in view exist: the virtualizer says which, the table lays them out in the
 * chosen columns. The rows themselves are numbers into the panel.
 */
export function PatientsGrid(props: PeopleProps) {
  const { rows } = props
  const frame = useRef<HTMLDivElement>(null)
  const [active, setActive] = useState(() => Math.min(readHistoryNote().row, Math.max(0, rows.length - 1)))
  const virtualizer = useVirtualizer({
    count: rows.length,
    getScrollElement: () => frame.current,
    estimateSize: () => rowHeight,
    overscan: 16,
    scrollPaddingEnd: headHeight,
    initialOffset: Math.max(0, (active - 8) * rowHeight),
  })
  const isPrinting = usePrinting()
  const items = isPrinting ? [] : virtualizer.getVirtualItems()
  const first = items[0]?.index ?? 0
  const last = isPrinting ? Math.min(rows.length, mostPrinted) - 1 : (items.at(-1)?.index ?? -1)
  const { visible, shownRows } = useGridTable(props, first, last)
  const menu = useRowMenu()
  const move = (index: number) => {
    const next = Math.max(0, Math.min(rows.length - 1, index))
    setActive(next)
    virtualizer.scrollToIndex(next)
  }
  const keys = useRowKeys({ ...props, active, move, pageRows: 20, openMenu: menu.openAt, rowId })
  const press = (event: MouseEvent<HTMLElement>) => {
    const index = pressedIndex(event)
    const row = index === null ? undefined : rows[index]
    if (index === null || row === undefined || !(event.target instanceof Element)) return
    setActive(index)
    if (event.target.closest("a")) keys.remember(index)
    const button = event.target.closest("button")
    if (button) menu.openAt(row, button)
  }
  if (rows.length === 0) return <NobodyFound {...props} />
  return (
    <>
      <div ref={frame} className={styles.frame}>
        <table
          role="grid"
          className={styles.grid}
          aria-label="Patients"
          aria-rowcount={rows.length + 1}
          aria-activedescendant={active >= first && active <= last ? rowId(active) : undefined}
          tabIndex={0}
          onKeyDown={keys.onKeyDown}
          onClick={press}
          style={{ minWidth: visible.reduce((sum, column) => sum + column.width, menuWidth) }}
        >
          <colgroup>
            {visible.map((column) => (
              <col key={column.id} style={{ width: column.width }} />
            ))}
            <col style={{ width: menuWidth }} />
          </colgroup>
          <GridHead {...props} columns={visible} onSort={() => move(0)} />
          <tbody>
            <Spacer height={items[0]?.start ?? 0} />
            {shownRows.map((shown, place) => (
              <GridRow
                key={shown.id}
                id={rowId(first + place)}
                index={first + place}
                isActive={first + place === active}
                panel={props.panel}
                row={shown.original.row}
                columns={visible}
                month={props.month}
              />
            ))}
            <Spacer height={isPrinting ? 0 : virtualizer.getTotalSize() - (items.at(-1)?.end ?? 0)} />
          </tbody>
        </table>
      </div>
      {isPrinting && rows.length > mostPrinted ? (
        <p>
          The first {count(mostPrinted)} of {count(rows.length)}; narrow the list to print the others.
        </p>
      ) : null}
      <p className={styles.foot}>
        <span className="soft">Arrow keys move, Enter opens, C copies the row.</span>
        <span role="status">{keys.said}</span>
      </p>
      <RowMenu menu={menu} open={keys.openRow} copy={keys.copy} />
    </>
  )
}

/** The columns to show, hidden and ordered as the view says, and the rows from one place of the list to another. */
function useGridTable({ rows, columns, allColumns }: PeopleProps, first: number, last: number) {
  const inView = useMemo(
    () => Array.from(rows.slice(first, last + 1), (row) => ({ row })),
    [rows, first, last],
  )
  const definitions = useMemo(
    () =>
      allColumns.map((column) => helper.display({ id: column.id, header: column.head, meta: { column } })),
    [allColumns],
  )
  const shown = useMemo(() => columns.map((column) => column.id), [columns])
  const hidden = useMemo(
    () => Object.fromEntries(allColumns.filter(({ id }) => !shown.includes(id)).map(({ id }) => [id, false])),
    [allColumns, shown],
  )
  const table = useTable({
    features,
    columns: definitions,
    data: inView,
    getRowId: (one) => String(one.row),
    state: { columnOrder: shown, columnVisibility: hidden },
  })
  const leaves = table.getVisibleLeafColumns()
  const visible = useMemo(() => leaves.flatMap((leaf) => leaf.columnDef.meta?.column ?? []), [leaves])
  return { visible, shownRows: table.getRowModel().rows }
}

function pressedIndex(event: MouseEvent<HTMLElement>): number | null {
  const row = event.target instanceof Element ? event.target.closest("tr[data-index]") : null
  return row instanceof HTMLElement ? Number(row.dataset.index) : null
}

function rowId(index: number): string {
  return `patient-row-${index}`
}

/** Keeps the height of the rows that are not there. */
function Spacer({ height }: { height: number }) {
  return height > 0 ? (
    <tr aria-hidden="true">
      <td style={{ height, padding: 0, border: 0 }} />
    </tr>
  ) : null
}
