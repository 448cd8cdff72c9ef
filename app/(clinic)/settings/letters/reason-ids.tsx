import { absentIds } from "../../../../lib/letters/own-words"
import { programAbsent } from "../../../../lib/letters/program-letter"
import { reasons } from "../../../../lib/outreach/reasons"
import styles from "./letter-form.module.css"

/** The ids of the reasons with the program's words for them. */
export function ReasonIds() {
  const rows = [
    ...reasons.map(({ id, patientWords }) => ({ id, words: patientWords })),
    ...absentIds.map((id) => ({ id, words: programAbsent[id] })),
  ]
  return (
    <details className={styles.ids}>
      <summary>Ids and the program’s English words</summary>
      <dl>
        {rows.map(({ id, words }) => (
          <div key={id}>
            <dt>{id}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
    </details>
  )
}
