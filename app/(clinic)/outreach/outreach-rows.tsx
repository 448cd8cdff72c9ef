import type { Caller } from "../../../lib/access/caller"
import type { Settings } from "../../../lib/domain/settings"
import type { outreachAnswers } from "./outreach-answers"
import { OutreachRow } from "./outreach-row"
import styles from "./outreach.module.css"

type Answers = Awaited<ReturnType<typeof outreachAnswers>>

/** The urgent rows, then the list of people to contact, each in its order. */
export function OutreachRows(props: { answers: Answers; settings: Settings; caller: Caller }) {
  const { answers, settings, caller } = props
  const shown = [...answers.urgent, ...answers.others]
  if (shown.length === 0) return <p className={styles.none}>Nobody is to be contacted today.</p>
  return (
    <ol className={styles.rows}>
      {shown.map((row, index) => (
        <OutreachRow
          key={row.one.id}
          row={row}
          above={shown[index - 1] ?? null}
          place={index - answers.urgent.length + 1}
          settings={settings}
          caller={caller}
        />
      ))}
    </ol>
  )
}
