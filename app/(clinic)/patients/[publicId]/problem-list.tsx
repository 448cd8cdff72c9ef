import type { EvidenceFact } from "../../../../lib/questions/evidence-fact"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"
import { factSources } from "./fact-sources"
import styles from "./identity.module.css"
import { LinkedWords } from "./linked-words"

const conditions = [
  ["hypertension", "hypertension"],
  ["diabetes", "diabetes"],
  ["heart_failure", "heart failure"],
  ["atrial_fibrillation", "atrial fibrillation"],
  ["pregnancy", "pregnancy"],
  ["palliative", "palliative care"],
] as const

/** What else is on the problem list, each opening the row that says so; several rows stand beside it. */
export function ProblemList(props: { person: PatientIdentity; facts: readonly EvidenceFact[] }) {
  const held = conditions.filter(([condition]) => props.person[condition])
  if (held.length === 0) return null
  return (
    <>
      On the problem list:{" "}
      {held.map(([condition, words], place) => (
        <span key={condition} className={styles.problem}>
          {place === 0 ? "" : ", "}
          <LinkedWords words={words} sources={factSources(props.facts, ["problem"], condition)} />
        </span>
      ))}
      .
    </>
  )
}
