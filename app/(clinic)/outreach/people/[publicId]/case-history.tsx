import type { HeldReason } from "../../../../../lib/domain/outreach-case"
import type { Settings } from "../../../../../lib/domain/settings"
import { actWords, dataWords } from "../../../../../lib/speech/case-words"
import { listed } from "../../../../../lib/speech/format"
import { reasonWords } from "../../../../../lib/speech/outreach-words"
import type { CaseEntry } from "../../../../../lib/store/case-of-person"
import { Theme } from "../../../../_ui/screen"
import { instantInFull } from "../../../imports/import-words"
import styles from "./person.module.css"

/** Everything that was done and everything the data did, latest first; nothing of it is ever changed. */
export function CaseHistory(props: { history: readonly CaseEntry[]; settings: Settings; timeZone: string }) {
  const { history, settings, timeZone } = props
  return (
    <Theme title="History" id="history" note="Latest first.">
      <ol className={styles.history}>
        {history.map((entry) => (
          <li key={entry.id}>
            <p className={styles.soft}>{instantInFull(entry.at, timeZone)}</p>
            <div>
              <p>
                {entry.byId === null ? dataWords(entry) : `${entry.byName} ${actWords(entry)}`}.
                {entry.isTakenBack ? " It was taken back." : null}
              </p>
              {entry.note === null ? null : <p className={styles.note}>“{entry.note}”</p>}
              <Reasons words="Began" held={entry.began} settings={settings} />
              <Reasons words="Ended" held={entry.ended} settings={settings} />
            </div>
          </li>
        ))}
      </ol>
    </Theme>
  )
}

function Reasons(props: { words: string; held: readonly HeldReason[]; settings: Settings }) {
  const { words, held, settings } = props
  if (held.length === 0) return null
  const names = held.map((one) => reasonWords(one, settings))
  return (
    <p className={styles.soft}>
      {words}: {names.length > 2 ? names.join("; ") : listed(names)}.
    </p>
  )
}
