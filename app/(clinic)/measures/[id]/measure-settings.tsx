import { withSettings } from "../../../../lib/domain/setting-words"
import type { WordedMeasure } from "../../../../lib/measures/types"
import styles from "./measure-basis.module.css"

/** Every setting that can change a standing of the measure, with what the clinic set. */
export function MeasureSettings({ measure }: { measure: WordedMeasure }) {
  return (
    <dl className={styles.settings}>
      {measure.settings.map((key) => (
        <div key={key}>
          <dt>{key}</dt>
          <dd>{withSettings(`{${key}}`, measure.set)}</dd>
        </div>
      ))}
    </dl>
  )
}
