import { Button } from "../../_ui/button"
import { Caution } from "../../_ui/notice"
import type { ImportQuestion } from "../../../lib/domain/import-report"
import { questionLines } from "../../../lib/import/report"
import type { ImportEntry } from "../../../lib/store/imports"
import { accept, decline } from "./actions"
import styles from "./imports.module.css"

/** What made the import stop, and the two ways on. Nothing is stored until a person decides. */
export function Question({ entry, question }: { entry: ImportEntry; question: ImportQuestion }) {
  return (
    <Caution>
      <p>
        <strong>Nothing is stored yet.</strong> So much of this extract cannot be used, or so much would go,
        that a person should look first.
      </p>
      <ul className={styles.oddities}>
        {questionLines(question).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <div className={styles.ways}>
        {entry.canBeAccepted ? (
          <form action={accept}>
            <input type="hidden" name="id" value={entry.id} />
            <Button type="submit" kind="primary">
              Store it all the same
            </Button>
          </form>
        ) : (
          <p>
            It was started from a console: <code>filtrate import --accept</code> goes on.
          </p>
        )}
        <form action={decline}>
          <input type="hidden" name="id" value={entry.id} />
          <Button type="submit">Discard the import</Button>
        </form>
      </div>
    </Caution>
  )
}
