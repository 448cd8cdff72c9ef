import Link from "next/link"
import { forMeeting, type MeasureAction } from "../../lib/domain/measure-actions"
import type { PlainDate } from "../../lib/domain/plain-date"
import { measureName } from "../../lib/measures/measure-name"
import { counted, month } from "../../lib/speech/format"
import { Theme } from "../_ui/screen"
import { ActionEntry } from "./action-entry"
import styles from "./meeting-open.module.css"
import { measureHref } from "./measures/search-params"
import type { ChosenMonth } from "./months"

/** What a meeting looks at first: what earlier months left open, how much was done since, and what this month decided. */
export function MeetingOpen(props: {
  chosen: ChosenMonth
  actions: readonly MeasureAction[]
  today: PlainDate
  timeZone: string
}) {
  const { chosen, actions, today, timeZone } = props
  const { openBefore, doneSince, ofMonth } = forMeeting(actions, chosen.month)
  if (openBefore.length + doneSince + ofMonth.length === 0) return null
  const entries = (listed: readonly MeasureAction[]) => (
    <ol className={styles.list}>
      {listed.map((action) => (
        <ActionEntry
          key={action.id}
          action={action}
          today={today}
          timeZone={timeZone}
          about={<MeasureLink action={action} month={chosen.param} />}
        />
      ))}
    </ol>
  )
  return (
    <div className={styles.meeting}>
      {openBefore.length + doneSince === 0 ? null : (
        <Theme
          id="open-actions"
          title="Open from earlier months"
          note={`${counted(doneSince, "action", "actions")} of earlier months done since.`}
        >
          {openBefore.length === 0 ? (
            <p className={`soft ${styles.none}`}>None is open.</p>
          ) : (
            entries(openBefore)
          )}
        </Theme>
      )}
      {ofMonth.length === 0 ? null : (
        <Theme id="month-actions" title={`Decisions and actions of ${month(chosen.month)}`}>
          {entries(ofMonth)}
        </Theme>
      )}
    </div>
  )
}

function MeasureLink({ action, month: param }: { action: MeasureAction; month: string | null }) {
  return (
    <Link href={`${measureHref(action.measureId, { month: param })}#actions`} prefetch={false}>
      {measureName(action.measureId)}
    </Link>
  )
}
