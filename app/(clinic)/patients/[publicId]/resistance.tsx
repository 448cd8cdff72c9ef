import { sentenceCase } from "../../../../lib/speech/format"
import { resistanceDetails } from "../../../../lib/questions/resistance-details"
import styles from "./kidney-outlook.module.css"

/** For whoever is above target on several classes: what tells resistance from something simpler. */
export function Resistance({ holds }: { holds: readonly boolean[] | null }) {
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
              <a className={styles.toFigures} href={`#figures-${sectionOf(detail.id)}`}>
                {sentenceCase(detail.words)}
              </a>
            </li>
          ))}
      </ul>
      <p className={styles.defers}>Clinicians decide; local policy applies.</p>
    </section>
  )
}

/** Which list of figures the rows behind a part stand in: where the pressure was measured, or the drugs. */
function sectionOf(id: (typeof resistanceDetails)[number]["id"]): "pressure" | "drugs" {
  return id === "out-of-office" || id === "office-only" ? "pressure" : "drugs"
}
