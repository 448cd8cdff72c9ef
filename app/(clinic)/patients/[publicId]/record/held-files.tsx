import type { PersonFile } from "../../../../../lib/store/person-facts"
import { count } from "../../../../../lib/speech/format"
import tables from "../../../../_ui/table.module.css"
import styles from "./record.module.css"

/** How much of each kind of fact is held, now and in earlier versions. */
export function HeldFiles({ files }: { files: readonly PersonFile[] }) {
  const held = files.filter((file) => file.kind !== "staff" && file.inForce.length + file.earlier.length > 0)
  return (
    <table className={`${tables.table} ${styles.held}`}>
      <thead>
        <tr>
          <th scope="col">File</th>
          <th scope="col" className={tables.number}>
            Facts that count
          </th>
          <th scope="col" className={tables.number}>
            Earlier versions
          </th>
        </tr>
      </thead>
      <tbody>
        {held.map((file) => (
          <tr key={file.kind}>
            <th scope="row">{file.kind}.csv</th>
            <td className={tables.number}>{count(file.inForce.length)}</td>
            <td className={tables.number}>{count(file.earlier.length)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
