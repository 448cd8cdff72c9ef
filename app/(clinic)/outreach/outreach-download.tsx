import type { Caller } from "../../../lib/access/caller"
import { ListDownload } from "../list-download"
import styles from "./outreach.module.css"
import { outreachFileHref, type OutreachView } from "./search-params"

/** The whole list that is shown as a file, for calls that are made elsewhere. */
export function OutreachDownload({ caller, view }: { caller: Caller; view: OutreachView }) {
  return (
    <p className={styles.files}>
      {(["csv", "xlsx"] as const).map((format) => (
        <ListDownload
          key={format}
          caller={caller}
          needs="people.export"
          href={outreachFileHref(view, format)}
          place="outreach"
        >
          {`This list as ${format.toUpperCase()}`}
        </ListDownload>
      ))}
    </p>
  )
}
