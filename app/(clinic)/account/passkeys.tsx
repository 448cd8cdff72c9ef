import type { OwnPasskey } from "../../../lib/store/passkeys"
import { Button } from "../../_ui/button"
import { instantInFull } from "../imports/import-words"
import styles from "./account.module.css"
import { AddPasskey } from "./add-passkey"
import { remove, rename } from "./passkey-actions"

/** The person's passkeys, and how to add one. */
export function Passkeys({ passkeys, timeZone }: { passkeys: readonly OwnPasskey[]; timeZone: string }) {
  return (
    <>
      <ul className={styles.list}>
        {passkeys.map(({ id, name, createdAt, lastUsedAt }) => (
          <li key={id} className={styles.entry}>
            <p>
              {name}
              <br />
              <span className="soft">
                Added {instantInFull(createdAt, timeZone)},{" "}
                {lastUsedAt ? `last used ${instantInFull(lastUsedAt, timeZone)}` : "not used yet"}
              </span>
            </p>
            <form action={rename} className={styles.acts}>
              <input type="hidden" name="passkey" value={id} />
              <input
                key={name}
                name="name"
                aria-label={`Name of ${name}`}
                defaultValue={name}
                maxLength={60}
                required
                className={styles.name}
              />
              <Button type="submit">Rename</Button>
              <Button type="submit" formAction={remove} aria-label={`Remove ${name}`}>
                Remove
              </Button>
            </form>
          </li>
        ))}
      </ul>
      <div className={styles.part}>
        <p>
          {passkeys.length === 0 ? "There are no passkeys. " : null}A passkey is kept by a phone, a computer
          or a security key, which checks by PIN, finger or face who uses it. It signs in alone, and serves as
          the second factor after a password.
        </p>
        <AddPasskey key={passkeys.length} />
      </div>
    </>
  )
}
