import { Button } from "../../../../_ui/button"
import styles from "./record.module.css"

/** Asks to whom the record goes and why; the answer is the file itself. */
export function HandOutForm({ publicId }: { publicId: string }) {
  return (
    <form action={`/api/patients/${publicId}/record`} method="post" className={styles.form}>
      <p id="hand-out-note">
        Every fact with the row that brought it and every earlier version, as the files of the extract in one
        zip file. The audit log keeps who took it and why.
      </p>
      <label>
        <span>To whom, and why</span>
        <input
          name="purpose"
          minLength={10}
          maxLength={300}
          required
          autoComplete="off"
          aria-describedby="hand-out-note"
        />
      </label>
      <Button type="submit" kind="primary">
        Download the record
      </Button>
    </form>
  )
}
