import type { Caller } from "../../lib/access/caller"
import { may } from "../../lib/access/permissions"
import { settingName, settingWords } from "../../lib/domain/setting-values"
import { closedStanding, closedWords } from "../../lib/figures/closing-words"
import type { SnapshotMeta } from "../../lib/engine/snapshot-meta"
import { counted, instant, month } from "../../lib/speech/format"
import type { MonthClosing as Closing } from "../../lib/store/month-closings"
import { askMonthClosing, type MonthClosingAnswers } from "./month-closing-answers"
import { CloseForm, ReopenForm } from "./month-closing-forms"
import type { ChosenMonth } from "./months"
import styles from "./month-closing.module.css"

/** Who closed the month, when and under which settings; or the way to close it; and how often that was done. */
export async function MonthClosing(props: { caller: Caller; snapshot: SnapshotMeta; chosen: ChosenMonth }) {
  const { caller, snapshot, chosen } = props
  const answers = await askMonthClosing(snapshot, chosen)
  const { inForce, isComplete, closings } = answers
  const mayClose = may(caller, "months.close")
  if (inForce === null && closings.length === 0 && !(mayClose && isComplete)) return null
  const earlier = closings.filter((one) => one !== inForce)
  return (
    <div className={styles.closing}>
      {inForce === null ? null : <InForce closing={inForce} answers={answers} snapshot={snapshot} />}
      {mayClose && inForce !== null ? <ReopenForm id={inForce.id} name={month(chosen.month)} /> : null}
      {mayClose && inForce === null && isComplete ? (
        <CloseForm asOf={chosen.asOf} builtAt={snapshot.builtAt} name={month(chosen.month)} />
      ) : null}
      {earlier.length === 0 ? null : (
        <details>
          <summary>Closed before: {counted(earlier.length, "time", "times")}</summary>
          <ol className={styles.earlier}>
            {earlier.map((one) => (
              <li key={one.id}>{earlierWords(one, snapshot.timeZone)}</li>
            ))}
          </ol>
        </details>
      )}
    </div>
  )
}

function InForce(props: { closing: Closing; answers: MonthClosingAnswers; snapshot: SnapshotMeta }) {
  const { closing, answers, snapshot } = props
  const { shown, otherSettings } = answers
  return (
    <>
      <p>{closedWords(closing, snapshot.timeZone)}</p>
      <p className="soft">{closedStanding(shown)}</p>
      {shown !== null && shown.peopleGone > 0 ? (
        <p className="soft">
          {counted(shown.peopleGone, "person", "people")} counted then{" "}
          {shown.peopleGone === 1 ? "has" : "have"} no record of their own today.
        </p>
      ) : null}
      {otherSettings.length === 0 ? (
        <p className="soft">The settings were those of today.</p>
      ) : (
        <details>
          <summary>{counted(otherSettings.length, "setting was", "settings were")} different then</summary>
          <ul className={styles.earlier}>
            {otherSettings.map((key) => (
              <li key={key}>
                {settingName(key)}: {settingWords(key, closing.settings[key])}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}

function earlierWords(one: Closing, timeZone: string): string {
  const closed = `Closed by ${one.closedBy}, ${instant(one.closedAt.toISOString(), timeZone)}.`
  if (one.reopenedAt === null) return closed
  const reason = one.reopenReason === null ? "" : `: ${one.reopenReason}`
  return `${closed} Opened again by ${one.reopenedBy ?? "somebody"}, ${instant(one.reopenedAt.toISOString(), timeZone)}${reason}`
}
