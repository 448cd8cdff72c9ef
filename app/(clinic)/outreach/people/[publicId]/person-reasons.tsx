import type { Settings } from "../../../../../lib/domain/settings"
import { day } from "../../../../../lib/speech/format"
import { hereWords } from "../../../../../lib/speech/outreach-row-words"
import { reasonParts } from "../../../../../lib/speech/outreach-words"
import { reasons } from "../../../../../lib/outreach/reasons"
import { Caution } from "../../../../_ui/notice"
import { Theme } from "../../../../_ui/screen"
import type { ShownCase } from "./person-answers"
import styles from "./person.module.css"

/** Every reason with its fact, since when it holds, who acts, and what takes it off; then why the person stands where they do. */
export function PersonReasons({ shown, settings }: { shown: ShownCase; settings: Settings }) {
  const { kept, row } = shown
  const isUrgent = row.reasons.some((held) => held.isUrgent)
  return (
    <Theme title="Reasons to contact" id="reasons">
      {row.reasons.length === 0 ? <p className={styles.none}>None at present.</p> : null}
      {isUrgent ? (
        <Caution>
          <p>{settings["outreach.urgentText"]}</p>
        </Caution>
      ) : null}
      <ul className={styles.reasons}>
        {row.reasons.map((held) => {
          const { name, detail } = reasonParts(held, settings)
          const known = reasons.find((one) => one.id === held.reason)
          const since = kept.since.get(held.reason)
          return (
            <li key={held.reason}>
              <p>
                {held.isUrgent ? <strong className={styles.urgent}>Urgent: </strong> : null}
                <strong>{name}</strong> {detail}
              </p>
              <p className={styles.soft}>
                {since === undefined ? null : `Since ${day(since)}. `}
                {known ? `For the ${known.actor}. It ends with ${known.endsWith}.` : null}
              </p>
            </li>
          )
        })}
      </ul>
      {row.reasons.length === 0 ? null : <p className={styles.soft}>{hereWords(row.facts)}</p>}
    </Theme>
  )
}
