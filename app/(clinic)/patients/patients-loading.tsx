import { Screen, ScreenTitle } from "../../_ui/screen"
import styles from "./patients-loading.module.css"

/** The shape of the screen while the panel is on its way. */
export function PatientsLoading() {
  return (
    <Screen aside={<ScreenTitle title="Patients">Reading the panel.</ScreenTitle>}>
      <div className={styles.find} />
      <div className={styles.rows} aria-hidden="true" />
      <p role="status" className="visually-hidden">
        Reading the panel.
      </p>
    </Screen>
  )
}
