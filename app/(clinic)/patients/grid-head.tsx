import { pressedSort } from "./chosen"
import { nameColumn } from "./columns"
import styles from "./patients-grid.module.css"
import type { PeopleProps } from "./people-props"

/** The heads: a press sorts by the column, a second press turns the order round. */
export function GridHead(props: PeopleProps & { onSort: () => void }) {
  const { columns, sort, view, go } = props
  return (
    <thead>
      <tr aria-rowindex={1}>
        {columns.map((column) => {
          const isSorted = sort?.column.id === column.id
          const order = sort?.direction === "up" ? "ascending" : "descending"
          return (
            <th
              key={column.id}
              scope="col"
              aria-sort={isSorted ? order : undefined}
              className={[
                column.isNumber ? styles.number : "",
                column.id === nameColumn ? styles.name : "",
              ].join(" ")}
            >
              <button
                type="button"
                onClick={() => {
                  go({ ...view, sort: pressedSort(sort, column) })
                  props.onSort()
                }}
              >
                {column.head}
                {isSorted ? <span aria-hidden="true">{sort.direction === "up" ? " ↑" : " ↓"}</span> : null}
                {column.unit ? <small>{column.unit}</small> : null}
              </button>
            </th>
          )
        })}
        <th className={styles.menu}>
          <span className="visually-hidden">More</span>
        </th>
      </tr>
    </thead>
  )
}
