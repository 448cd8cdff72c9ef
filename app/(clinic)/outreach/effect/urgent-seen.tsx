import Link from "next/link"
import type { Settings } from "../../../../lib/domain/settings"
import { count, counted, day } from "../../../../lib/speech/format"
import { reasonWords } from "../../../../lib/speech/outreach-words"
import { Theme } from "../../../_ui/screen"
import type { UrgentAnswers } from "./urgent-answers"
import styles from "./effect.module.css"

/** Whether what was urgent was acknowledged while it held, and who was never acknowledged, by name. */
export function UrgentSeenPart({ urgent, settings }: { urgent: UrgentAnswers; settings: Settings }) {
  const { began, seen, seenSoon, unseen, missed, people } = urgent
  if (began === 0) return null
  return (
    <Theme title="Was the urgent seen in time?" id="urgent">
      <p className={styles.urgent}>
        {counted(began, "urgent reason", "urgent reasons")} began in this period. Acknowledged while it held:{" "}
        {count(seen)}, by the day after it was found {count(seenSoon)}. Not yet acknowledged:{" "}
        {unseen === 0 ? "none" : <Link href="/outreach?show=urgent">{count(unseen)}</Link>}. Ended before
        anybody acknowledged it: {missed === 0 ? "none" : count(missed)}.
      </p>
      {people.length === 0 ? null : (
        <ul className={styles.missed} aria-label="Ended before anybody acknowledged it">
          {people.map(({ name, ...one }) => (
            <li key={`${one.publicId} ${one.reason} ${one.beganOn}`}>
              <Link href={`/outreach/people/${one.publicId}`} prefetch={false}>
                {name}
              </Link>{" "}
              {reasonWords(one, settings)}. On the list from {day(one.beganOn)}, gone by {day(one.endedOn)}.
            </li>
          ))}
        </ul>
      )}
      {missed > people.length ? <p className="soft">The latest {count(people.length)}.</p> : null}
    </Theme>
  )
}
