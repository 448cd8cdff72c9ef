import { standingTable } from "../../measure-table"
import type { MeasureFigure } from "../../../../lib/figures/measure-figure"
import styles from "./month-table.module.css"

const shownAtOnce = 13

/** The counts of every standing month by month; the last year at once, the earlier months one key away. */
export function MonthTable({ figure }: { figure: MeasureFigure }) {
  const { caption, columns, rows } = standingTable(figure)
  const earlier = rows.slice(shownAtOnce)
  return (
    <>
      <Counts caption={caption} columns={columns} rows={rows.slice(0, shownAtOnce)} />
      {earlier.length === 0 ? null : (
        <details className={styles.earlier}>
          <summary>Earlier months</summary>
          <Counts caption={`${caption}, earlier`} columns={columns} rows={earlier} />
        </details>
      )}
    </>
  )
}

function Counts({ caption, columns, rows }: { caption: string; columns: string[]; rows: string[][] }) {
  return (
    <div className={styles.frame} role="region" aria-label={caption} tabIndex={0}>
      <table className={styles.table}>
        <caption className="visually-hidden">{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column} scope="col">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, ...cells]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {cells.map((cell, place) => (
                <td key={place}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
