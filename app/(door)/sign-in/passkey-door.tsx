import styles from "../door.module.css"
import { PasskeyButton } from "../passkey-button"
import { askForPasskey, signInByPasskey } from "./passkey-actions"

/** The way in by a passkey alone; nothing is typed. */
export function PasskeyDoor() {
  return (
    <section aria-labelledby="passkey" className={styles.part}>
      <h2 id="passkey">Sign in with a passkey</h2>
      <PasskeyButton label="Use a passkey" ask={askForPasskey} give={signInByPasskey} />
    </section>
  )
}
