import { dietSodium } from "../../../lib/measures/diet-sodium"
import { milligrams } from "../../../lib/speech/format"
import { Caution } from "../../_ui/notice"
import styles from "../people-list.module.css"

/** What may hurt if a limit is taken for an order, and who decides. */
export function SodiumCaution() {
  return (
    <div className={styles.before}>
      <Caution>
        <p>
          Less sodium is not for everybody: salt-wasting kidney disease, lithium, and faintness on standing
          with diuretics ask for a clinician first (from memory). Clinicians decide; local policy applies.
        </p>
      </Caution>
    </div>
  )
}

/** What a value rests on, and where the limits are from. */
export function SodiumSources() {
  return (
    <p className={styles.source}>
      A recall or food record is good for a group and uncertain for one person: of people asked once, about
      one in five was off by more than 40% against a 24-hour urine (INTERMAP, PMC6690055). Spot-urine
      estimates are not counted.{" "}
      {dietSodium.limits.map(({ mg, source }) => `${milligrams(mg)}: ${source}.`).join(" ")}
    </p>
  )
}
