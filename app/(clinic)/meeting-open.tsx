import Link from "next/link"
import { forMeeting, type MeasureAction } from "../../lib/domain/measure-actions"
import { plainToday } from "../../lib/domain/plain-date"
import { dietSodium } from "../../lib/measures/diet-sodium"
import { findMeasure } from "../../lib/measures/index"
import { counted, month } from "../../lib/speech/format"
import { store } from "../../lib/store/client"
import { listActions } from "../../lib/store/measure-actions"
import { Theme } from "../_ui/screen"
import { ActionEntry } from "./action-entry"
import styles from "./meeting-open.module.css"
import { measureHref } from "./measures/search-params"
import type { ChosenMonth } from "./months"
import { clinicTimeZone } from "./time-zone"

/** What a meeting looks at first: what earlier months left open, how much was done since, and what this month decided. */
export async function MeetingOpen({ chosen }: { chosen: ChosenMonth }) {
  const [actions, timeZone] = await Promise.all([
    listActions(store(), { asOf: chosen.asOf }),
    clinicTimeZone(),
  ])
  const { openBefore, doneSince, ofMonth } = forMeeting(actions, chosen.month)
  if (openBefore.length + doneSince + ofMonth.length === 0) return null
  const entries = (listed: readonly MeasureAction[]) => (
    <ol className={styles.list}>
      {listed.map((action) => (
        <ActionEntry
          key={action.id}
          action={action}
          today={plainToday(new Date(), timeZone)}
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
  const name = action.measureId === dietSodium.id ? dietSodium.name : findMeasure(action.measureId)?.name
  return (
    <Link href={`${measureHref(action.measureId, { month: param })}#actions`} prefetch={false}>
      {name ?? "A measure that is no longer listed"}
    </Link>
  )
}
