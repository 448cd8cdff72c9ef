import {
  columnOrderingFeature,
  columnVisibilityFeature,
  createColumnHelper,
  tableFeatures,
  useTable,
} from "@tanstack/react-table"
import { useVirtualizer } from "@tanstack/react-virtual"
import { useMemo, useRef, useState } from "react"
import { nameColumn, type PanelColumn } from "./columns"
import { GridHead } from "./grid-head"
import { readHistoryNote } from "./history-note"
import { NobodyFound } from "./nobody-found"
import type { Panel } from "./panel"
import styles from "./patients-grid.module.css"
import type { PeopleProps } from "./people-props"
import { PersonLink } from "./person-link"
import { RowMenu, useRowMenu } from "./row-menu"
import { useRowKeys } from "./use-row-keys"

const rowHeight = 32
const headHeight = 48

/** Which row of the panel a row of the table is; the values stay in the panel's columns. */
type GridRow = { readonly row: number }

const features = tableFeatures({ columnOrderingFeature, columnVisibilityFeature })
const helper = createColumnHelper<typeof features, GridRow>()

/**
 * The people as a dense table. Only the rows in view exist: the virtualizer says which, the table lays their cells out in
 * the chosen columns. The rows themselves are numbers into the panel.
 */
export function PatientsGrid(props: PeopleProps) {
  const { panel, rows, columns, allColumns, month } = props
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
  const items = virtualizer.getVirtualItems()
  const first = items[0]?.index ?? 0
  const last = items.at(-1)?.index ?? -1
  const window = useMemo(
    () => Array.from(rows.slice(first, last + 1), (row) => ({ row })),
    [rows, first, last],
  )

  const definitions = useMemo(
    () => allColumns.map((column) => definitionOf(column, panel)),
    [allColumns, panel],
  )
  const shown = useMemo(() => columns.map((column) => column.id), [columns])
  const hidden = useMemo(
    () => Object.fromEntries(allColumns.filter(({ id }) => !shown.includes(id)).map(({ id }) => [id, false])),
    [allColumns, shown],
  )
  const table = useTable({
    features,
    columns: definitions,
    data: window,
    getRowId: (one) => String(one.row),
    state: { columnOrder: shown, columnVisibility: hidden },
  })

  const move = (index: number) => {
    const next = Math.max(0, Math.min(rows.length - 1, index))
    setActive(next)
    virtualizer.scrollToIndex(next)
  }
  const menu = useRowMenu()
  const keys = useRowKeys({ ...props, active, move, pageRows: 20, openMenu: menu.openAt, rowId })
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
          style={{ minWidth: columns.reduce((sum, column) => sum + column.width, menuWidth) }}
        >
          <colgroup>
            {columns.map((column) => (
              <col key={column.id} style={{ width: column.width }} />
            ))}
            <col style={{ width: menuWidth }} />
          </colgroup>
          <GridHead
            {...props}
            onSort={() => {
              setActive(0)
              virtualizer.scrollToOffset(0)
            }}
          />
          <tbody>
            <Spacer height={items[0]?.start ?? 0} />
            {table.getRowModel().rows.map((row, place) => {
              const index = first + place
              return (
                <tr
                  key={row.id}
                  id={rowId(index)}
                  aria-rowindex={index + 2}
                  aria-selected={index === active}
                  onMouseDown={() => setActive(index)}
                >
                  {row.getVisibleCells().map((cell) =>
                    cell.column.id === nameColumn ? (
                      <th key={cell.id} scope="row" className={styles.name}>
                        <PersonLink
                          panel={panel}
                          row={row.original.row}
                          month={month}
                          onOpen={() => keys.remember(index)}
                        />
                      </th>
                    ) : (
                      <td key={cell.id} className={classOf(columns, cell.column.id)}>
                        <table.FlexRender cell={cell} />
                      </td>
                    ),
                  )}
                  <td className={styles.menu}>
                    <button
                      type="button"
                      tabIndex={-1}
                      aria-label="More for this row"
                      onClick={(event) => menu.openAt(row.original.row, event.currentTarget)}
                    >
                      ⋯
                    </button>
                  </td>
                </tr>
              )
            })}
            <Spacer height={virtualizer.getTotalSize() - (items.at(-1)?.end ?? 0)} />
          </tbody>
        </table>
      </div>
      <p className={styles.foot}>
        <span className="soft">Arrow keys move, Enter opens, C copies the row.</span>
        <span role="status">{keys.said}</span>
      </p>
      <RowMenu menu={menu} open={keys.openRow} copy={keys.copy} />
    </>
  )
}

const menuWidth = 26

function rowId(index: number): string {
  return `patient-row-${index}`
}

function definitionOf(column: PanelColumn, panel: Panel) {
  return helper.display({
    id: column.id,
    header: column.head,
    cell: ({ row }) => column.cell(panel, row.original.row),
  })
}

function classOf(columns: readonly PanelColumn[], id: string): string | undefined {
  return columns.find((column) => column.id === id)?.isNumber ? styles.number : undefined
}

/** Keeps the height of the rows that are not there. */
function Spacer({ height }: { height: number }) {
  return height > 0 ? (
    <tr aria-hidden="true">
      <td style={{ height, padding: 0, border: 0 }} />
    </tr>
  ) : null
}
