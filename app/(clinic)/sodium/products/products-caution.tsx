import { Caution } from "../../../_ui/notice"
import styles from "./products.module.css"

/** What the list is not, and who decides. */
export function ProductsCaution() {
  return (
    <div className={styles.caution}>
      <Caution>
        <p>
          A list to ask by, and not complete: what is not on it may harm as well. It is no reason to stop or
          start a medicine. Clinicians and pharmacists decide; local policy applies.
        </p>
      </Caution>
    </div>
  )
}
