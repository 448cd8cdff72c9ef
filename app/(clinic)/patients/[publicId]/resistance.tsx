import { sentenceCase } from "../../../../lib/speech/format"
import { resistanceDetails } from "../../../../lib/questions/resistance-details"
import type { PatientStatementRows } from "../../../../lib/questions/patient-statement-rows"
import styles from "./kidney-outlook.module.css"
import { SourceLinks } from "./source-links"
import { statementSources } from "./statement-sources"

/** For whoever is above target on several classes: what tells resistance from something simpler. */
export function Resistance(props: {
  holds: readonly boolean[] | null
  behind: readonly PatientStatementRows[]
}) {
  const { holds, behind } = props
  if (holds === null) return null
  return (
    <section aria-labelledby="resistance">
      <h2 id="resistance" className={styles.title}>
        High on several drugs: resistance, or something simpler
      </h2>
      <ul className={styles.parts}>
        {resistanceDetails
          .filter((_, place) => holds[place])
          .map((detail) => (
            <li key={detail.id}>
              {sentenceCase(detail.words)}.{" "}
              <SourceLinks sources={statementSources(behind, "resistance", detail.id)} />
            </li>
          ))}
      </ul>
      <p className={styles.defers}>Clinicians decide; local policy applies.</p>
    </section>
  )
}
