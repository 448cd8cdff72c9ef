import { Button } from "../../_ui/button"
import { endOwnEmergency } from "./actions"
import styles from "./emergency.module.css"

/** Says on every screen that the limits are lifted, and until when. */
export function EmergencyBanner({ until }: { until: string }) {
  return (
    <aside className={styles.banner} aria-label="Emergency access">
      <p>Emergency access to the whole clinic until {until}. What is opened is on record and reviewed.</p>
      <form action={endOwnEmergency}>
        <Button type="submit">End it now</Button>
      </form>
    </aside>
  )
}
