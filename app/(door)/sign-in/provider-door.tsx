import { LeavingLink } from "../../_ui/button"
import styles from "../door.module.css"
import { Problem } from "../field"

/** The way in through the clinic's own provider, and why it did not lead in. */
export function ProviderDoor({ problem }: { problem: string | null }) {
  return (
    <section aria-labelledby="provider" className={styles.part}>
      <h2 id="provider">Sign in with a clinic account</h2>
      <Problem words={problem} />
      <div>
        <LeavingLink href="/provider/leave" kind="primary">
          Go to the clinic's provider
        </LeavingLink>
      </div>
    </section>
  )
}
