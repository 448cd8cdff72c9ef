import styles from "./figures.module.css"

export type FiguresTable = { caption: string; columns: string[]; rows: string[][] }

/** The figures behind a chart as a table, one key away. The first column names the row. */
export function Figures({ table }: { table: FiguresTable }) {
  return (
    <details className={styles.figures}>
      <summary>
        Figures<span className="visually-hidden">: {table.caption}</span>
      </summary>
      <div className={styles.frame} tabIndex={0} role="region" aria-label={table.caption}>
        <table>
          <caption className="visually-hidden">{table.caption}</caption>
          <thead>
            <tr>
              {table.columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map((cells) => (
              <tr key={cells[0]}>
                {cells.map((cell, place) =>
                  place === 0 ? (
                    <th key={place} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={place}>{cell}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  )
}
