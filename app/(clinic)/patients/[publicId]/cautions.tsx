import type { PatientCaution } from "../../../../lib/questions/patient-cautions"
import { cautionWords } from "../../../../lib/speech/caution-words"
import styles from "./cautions.module.css"
import { SourceLinks } from "./source-links"

/** What a reader of these values should know first. The facts, and whose decision it is. */
export function Cautions({ cautions }: { cautions: readonly PatientCaution[] }) {
  if (cautions.length === 0) return null
  return (
    <section className={styles.cautions} aria-label="Cautions">
      <ul>
        {cautions.map((caution) => (
          <li key={caution.caution}>
            <Words caution={caution} /> <SourceLinks sources={caution.sources} />
          </li>
        ))}
      </ul>
      <p className={styles.defers}>Clinicians decide; local policy applies.</p>
    </section>
  )
}

function Words({ caution }: { caution: PatientCaution }) {
  const { lead, rest } = cautionWords(caution)
  return (
    <>
      {lead === "" ? null : <strong>{lead}</strong>}
      {rest}
    </>
  )
}
