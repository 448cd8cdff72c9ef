import type { ListedAllergy } from "../../../../lib/questions/listed-allergies"
import { shortAllergyWords } from "../../../../lib/speech/allergy-words"
import styles from "./identity.module.css"
import { LinkedWords } from "./linked-words"

/** Every allergy and intolerance on record, each opening its row; that there is none is said. */
export function Allergies({ allergies }: { allergies: readonly ListedAllergy[] }) {
  if (allergies.length === 0) return <>No allergy or intolerance on record.</>
  return (
    <>
      Allergies and intolerances:{" "}
      {allergies.map((one, place) => (
        <span key={`${one.substance} ${one.reaction}`} className={styles.problem}>
          {place === 0 ? "" : ", "}
          <LinkedWords words={shortAllergyWords(one)} sources={one.sources} />
        </span>
      ))}
      .
    </>
  )
}
