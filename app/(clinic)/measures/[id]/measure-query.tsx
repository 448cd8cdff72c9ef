import { withSettings } from "../../../../lib/domain/setting-words"
import { standingsSql } from "../../../../lib/measures/standing-sql"
import type { WordedMeasure } from "../../../../lib/measures/types"
import styles from "./measure-query.module.css"

/** The query that gives everyone their standing, as it runs, for whoever audits it. */
export function MeasureQuery({ measure }: { measure: WordedMeasure }) {
  const params = Object.entries(measure.params)
  return (
    <details className={styles.query}>
      <summary>The query, as it runs</summary>
      <p>
        Over <code>patient_month</code>, one row for each patient and month; the files of{" "}
        <code>lib/clinical/views</code> say how its columns come about.
      </p>
      {params.length === 0 ? null : (
        <p>
          With{" "}
          {params.map(([name, key], place) => (
            <span key={name}>
              {place === 0 ? "" : ", "}
              <code>${name}</code> = {withSettings(`{${key}}`, measure.set)}
            </span>
          ))}
          , from the settings.
        </p>
      )}
      <pre tabIndex={0} role="region" aria-label="The query, as it runs">
        <code>{standingsSql([measure])}</code>
      </pre>
    </details>
  )
}
