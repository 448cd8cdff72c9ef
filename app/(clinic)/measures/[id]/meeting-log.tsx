import type { Caller } from "../../../../lib/access/caller"
import { may } from "../../../../lib/access/permissions"
import { plainToday } from "../../../../lib/domain/plain-date"
import { month } from "../../../../lib/speech/format"
import { listOwners } from "../../../../lib/store/action-owners"
import { store } from "../../../../lib/store/client"
import { listActions, mayClose } from "../../../../lib/store/measure-actions"
import { Theme } from "../../../_ui/screen"
import { ActionEntry } from "../../action-entry"
import type { ChosenMonth } from "../../months"
import { clinicTimeZone } from "../../time-zone"
import { CloseForm } from "./close-form"
import { MeetingForm } from "./meeting-form"
import styles from "./meeting-log.module.css"

/** What the meetings decided about a measure, the open first, and the form to write more down. */
export async function MeetingLog(props: { caller: Caller; measureId: string; chosen: ChosenMonth }) {
  const { caller, measureId, chosen } = props
  const isWriter = may(caller, "actions.write")
  const [actions, owners, timeZone] = await Promise.all([
    listActions(store(), { asOf: chosen.asOf, measureId }),
    isWriter ? listOwners(store(), caller) : [],
    clinicTimeZone(),
  ])
  if (actions.length === 0 && !isWriter) return null
  const today = plainToday(new Date(), timeZone)
  return (
    <Theme
      id="actions"
      title="Decisions and actions"
      note={actions.length === 0 ? "None yet." : `Of the meetings up to ${month(chosen.month)}.`}
    >
      <ol className={styles.list}>
        {actions.map((action) => (
          <ActionEntry key={action.id} action={action} today={today} timeZone={timeZone}>
            {isWriter && mayClose(caller, action) ? (
              <details className={styles.more}>
                <summary>
                  {action.state === "open" ? "Close" : "Open again"}
                  <span className="visually-hidden">: {action.text}</span>
                </summary>
                <CloseForm id={action.id} version={action.version} kind={action.kind} state={action.state} />
              </details>
            ) : null}
          </ActionEntry>
        ))}
      </ol>
      {isWriter ? (
        <details className={styles.more}>
          <summary>Write down for {month(chosen.month)}</summary>
          <MeetingForm measureId={measureId} month={chosen.month} owners={owners} />
        </details>
      ) : null}
    </Theme>
  )
}
