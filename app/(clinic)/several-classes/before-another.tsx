import { uncontrolledOnSeveralClasses } from "../../../lib/measures/uncontrolled-on-several-classes"
import { Caution } from "../../_ui/notice"
import styles from "../people-list.module.css"

/** What may hurt if the list is taken for more than it is, and who decides. */
export function BeforeAnother() {
  return (
    <div className={styles.before}>
      <Caution>
        <p>
          This is apparent resistance only: what is prescribed or supplied is not what is taken, and an office
          pressure alone may be a white-coat effect. Clinicians decide; local policy applies.
        </p>
      </Caution>
    </div>
  )
}

/** What the findings cannot tell, and where they are from. */
export function Sources() {
  return (
    <p className={styles.source}>
      Not told here: how the pressure was taken, salt, alcohol, sleep apnoea, pain, primary aldosteronism and
      other causes, and why a class or a dose is not given; it may have been tried.{" "}
      {uncontrolledOnSeveralClasses.source}. A dose is held against half of the usual maximum a day (common
      research rule, from memory); a supply that leaves more than 36 of 180 days covers less than 80% (usual
      limit, from memory). Drugs that raise the pressure: AHA/ACC 2025 guideline.
    </p>
  )
}
