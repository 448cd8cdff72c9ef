import { Button } from "../../_ui/button"
import { nameColumn } from "./columns"
import type { PanelColumn } from "./column-kinds"
import styles from "./column-chooser.module.css"
import { Popover } from "./popover"
import type { PeopleProps } from "./people-props"

/** Which columns are shown and in which order; the name always stands first. */
export function ColumnChooser(props: PeopleProps) {
  const { view, go, allColumns } = props
  const shown = props.columns.filter((column) => column.id !== nameColumn).map((column) => column.id)
  const hidden = allColumns.filter((column) => column.id !== nameColumn && !shown.includes(column.id))
  const choose = (ids: string[]) => go({ ...view, columns: ids.length === 0 ? [nameColumn] : ids })
  return (
    <Popover label="Columns">
      <div className={styles.chooser}>
        <ol className={styles.shown} aria-label="Columns shown, in order">
          {shown.map((id, place) => (
            <li key={id}>
              <label>
                <input type="checkbox" checked onChange={() => choose(shown.filter((one) => one !== id))} />{" "}
                {headOf(allColumns, id)}
              </label>
              <button
                type="button"
                aria-label={`Move ${headOf(allColumns, id)} forward`}
                disabled={place === 0}
                onClick={() => choose(moved(shown, place, place - 1))}
              >
                ↑
              </button>
              <button
                type="button"
                aria-label={`Move ${headOf(allColumns, id)} back`}
                disabled={place === shown.length - 1}
                onClick={() => choose(moved(shown, place, place + 1))}
              >
                ↓
              </button>
            </li>
          ))}
        </ol>
        <ul className={styles.hidden} aria-label="Columns not shown">
          {hidden.map((column) => (
            <li key={column.id}>
              <label>
                <input type="checkbox" checked={false} onChange={() => choose([...shown, column.id])} />{" "}
                {column.head}
              </label>
            </li>
          ))}
        </ul>
        {view.columns.length > 0 ? (
          <Button onClick={() => go({ ...view, columns: [] })}>Back to the usual columns</Button>
        ) : null}
      </div>
    </Popover>
  )
}

function headOf(columns: readonly PanelColumn[], id: string): string {
  return columns.find((column) => column.id === id)?.head ?? id
}

function moved(ids: readonly string[], from: number, to: number): string[] {
  const rest = ids.filter((_id, place) => place !== from)
  return [...rest.slice(0, to), ...ids.slice(from, from + 1), ...rest.slice(to)]
}
