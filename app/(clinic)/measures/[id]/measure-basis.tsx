import { sentenceCase } from "../../../../lib/speech/format"
import type { WordedMeasure } from "../../../../lib/measures/types"
import styles from "./measure-basis.module.css"
import { MeasureQuery } from "./measure-query"
import { MeasureSettings } from "./measure-settings"

/** What the decision rests on: its source, what the clinic set, and the query itself. */
export function MeasureBasis({ measure }: { measure: WordedMeasure }) {
  return (
    <div className={styles.basis}>
      <section>
        <h3>Source</h3>
        <p className={styles.source}>{sentenceCase(measure.source)}.</p>
      </section>
      <section>
        <h3>Settings that shape it</h3>
        <MeasureSettings measure={measure} />
      </section>
      <MeasureQuery measure={measure} />
    </div>
  )
}
