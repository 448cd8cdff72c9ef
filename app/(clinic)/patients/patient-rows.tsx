import { useWindowVirtualizer } from "@tanstack/react-virtual"
import { useRef, useState } from "react"
import { nameColumn } from "./columns"
import { keepHistoryNote } from "./history-note"
import { NobodyFound } from "./nobody-found"
import styles from "./patient-rows.module.css"
import type { PeopleProps } from "./people-props"
import { PersonLink } from "./person-link"

/** The people on a phone: each row a sentence, the name and then its values one after another, each with its word. */
export function PatientRows(props: PeopleProps) {
  const { panel, rows, columns, month, query } = props
  const list = useRef<HTMLUListElement>(null)
  const [offset, setOffset] = useState(0)
  const virtualizer = useWindowVirtualizer({
    count: rows.length,
    estimateSize: () => 112,
    overscan: 8,
    scrollMargin: offset,
  })
  if (rows.length === 0) return <NobodyFound {...props} />
  return (
    <ul
      ref={(element) => {
        list.current = element
        if (element) setOffset(element.getBoundingClientRect().top + window.scrollY)
      }}
      className={styles.rows}
      style={{ height: virtualizer.getTotalSize() }}
    >
      {virtualizer.getVirtualItems().map((item) => {
        const row = rows[item.index]
        if (row === undefined) return null
        return (
          <li
            key={item.key}
            ref={virtualizer.measureElement}
            data-index={item.index}
            style={{ transform: `translateY(${item.start - offset}px)` }}
          >
            <h2>
              <PersonLink
                panel={panel}
                row={row}
                month={month}
                isStop
                onOpen={() => keepHistoryNote({ find: query, row: item.index })}
              />
            </h2>
            <p>
              {columns
                .filter((column) => column.id !== nameColumn)
                .map((column) => ({ ...column, shown: column.cell(panel, row) }))
                .filter((column) => column.shown !== null)
                .map((column) => (
                  <span key={column.id}>
                    {column.label === "" ? null : <span className={styles.label}>{column.label} </span>}
                    {column.shown}
                  </span>
                ))}
            </p>
          </li>
        )
      })}
    </ul>
  )
}
