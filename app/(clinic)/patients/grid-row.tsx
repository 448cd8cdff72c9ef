import { memo } from "react"
import { nameColumn } from "./columns"
import type { PanelColumn } from "./column-kinds"
import type { Panel } from "./panel"
import styles from "./patients-grid.module.css"
import { PersonLink } from "./person-link"

/**
 * One person's row. While the table is scrolled the rows that stay are left alone: what a row shows depends on these
 * props only, and its presses are taken by the table.
 */
export const GridRow = memo(function GridRow(props: {
  id: string
  index: number
  isActive: boolean
  panel: Panel
  row: number
  /** The visible columns, in their order. */
  columns: readonly PanelColumn[]
  month: string | null
}) {
  const { panel, row, index } = props
  return (
    <tr id={props.id} aria-rowindex={index + 2} aria-selected={props.isActive} data-index={index}>
      {props.columns.map((column) =>
        column.id === nameColumn ? (
          <th key={column.id} scope="row" className={styles.name}>
            <PersonLink panel={panel} row={row} month={props.month} />
          </th>
        ) : (
          <td key={column.id} className={column.isNumber ? styles.number : undefined}>
            {column.cell(panel, row)}
          </td>
        ),
      )}
      <td className={styles.menu}>
        <button type="button" tabIndex={-1} aria-label="More for this row">
          ⋯
        </button>
      </td>
    </tr>
  )
})
