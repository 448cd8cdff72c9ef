import Link from "next/link"
import { ScreenTitle, AsidePart } from "../../_ui/screen"
import type { ImportEntry } from "../../../lib/store/imports"
import { whenWords } from "./import-entry"
import { statusWords } from "./import-words"
import styles from "./imports.module.css"

/** Which import this is and how it stands. */
export function ImportAside({ entry, timeZone }: { entry: ImportEntry; timeZone: string }) {
  return (
    <>
      <ScreenTitle title={`Import ${entry.id}`}>
        <p>{entry.source}</p>
        <p>{whenWords(entry, timeZone)}</p>
        <p>{statusWords[entry.status]}</p>
      </ScreenTitle>
      <AsidePart>
        <p className={styles.way}>
          <Link href="/imports" prefetch={false}>
            All imports
          </Link>
        </p>
      </AsidePart>
    </>
  )
}
