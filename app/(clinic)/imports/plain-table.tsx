import type { ReactNode } from "react"
import table from "./plain-table.module.css"

export type PlainColumn = { head: string; isNumber?: boolean; isLong?: boolean; label?: string }

/** A dense table of a few columns; on a phone each row is a sentence. The first cell names the row. */
export function PlainTable(props: {
  caption: string
  columns: readonly PlainColumn[]
  rows: readonly { key: string; cells: readonly ReactNode[] }[]
}) {
  const { columns } = props
  return (
    <table className={table.table} role="table">
      <caption className="visually-hidden">{props.caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map((column) => (
            <th
              key={column.head}
              scope="col"
              role="columnheader"
              className={column.isNumber ? table.number : undefined}
            >
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {props.rows.map((row) => (
          <tr key={row.key} role="row">
            {row.cells.map((cell, place) => {
              const column = columns[place]
              const look = column?.isNumber ? table.number : column?.isLong ? table.wrap : undefined
              return place === 0 ? (
                <th key={place} scope="row" role="rowheader" className={look}>
                  {cell}
                </th>
              ) : (
                <td
                  key={place}
                  role="cell"
                  data-label={column?.label ?? column?.head.toLowerCase()}
                  className={look}
                >
                  {cell}
                </td>
              )
            })}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
