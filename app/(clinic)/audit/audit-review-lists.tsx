import Link from "next/link"
import { workingHours } from "../../../lib/store/audit-review"
import { count, counted, day } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { PlainTable } from "../imports/plain-table"
import type { AuditAnswers } from "./audit-answers"
import styles from "./audit.module.css"
import { moment } from "./entry-words"
import { auditHref } from "./search-params"

const hour = (of: number) => `${String(of).padStart(2, "0")}:00`

/** Counts that a reviewer looks at first. A count is no finding. */
export function AuditReviewLists({ answers }: { answers: AuditAnswers }) {
  const { days, review, timeZone } = answers
  const spoken = spokenDays(days)
  return (
    <>
      <Theme title="Days with more people opened than on the person's own median day" id="busy" note={spoken}>
        <p className={styles.lead}>
          Counted, not judged: a busy clinic day looks the same. People opened are counted once a day.
        </p>
        {review.busy.length === 0 ? <p className={styles.none}>None.</p> : null}
        {review.busy.length > 0 ? (
          <PlainTable
            caption="Days above the person's own median"
            columns={[
              { head: "Who" },
              { head: "Day" },
              { head: "People opened", isNumber: true },
              { head: "Own median", isNumber: true },
              { head: "Days with any", isNumber: true },
            ]}
            rows={review.busy.map((row) => ({
              key: `${row.actor} ${row.day}`,
              cells: [
                <Link
                  key="who"
                  href={auditHref({ actor: row.actor, from: row.day, to: row.day })}
                  prefetch={false}
                >
                  {row.name}
                </Link>,
                day(row.day),
                count(row.people),
                String(row.median),
                count(row.days),
              ],
            }))}
          />
        ) : null}
      </Theme>
      <Theme
        title={`Opened outside ${hour(workingHours.from)} to ${hour(workingHours.to)}, Monday to Friday`}
        id="hours"
        note={spoken}
      >
        <PerPerson
          rows={review.afterHours.map((row) => ({ ...row, times: row.openings }))}
          {...{ head: "Openings", caption: "Opened outside working hours", days, timeZone }}
        />
      </Theme>
      <Theme title="Files of people taken" id="files" note={spoken}>
        <PerPerson
          rows={review.taken.map((row) => ({ ...row, times: row.files }))}
          {...{ head: "Files", caption: "Files of people taken", days, timeZone }}
        />
      </Theme>
    </>
  )
}

function PerPerson(props: {
  rows: readonly { actor: string; name: string; times: number; people: number; lastAt: Date }[]
  head: string
  caption: string
  days: AuditAnswers["days"]
  timeZone: string
}) {
  const { rows, head, caption, days, timeZone } = props
  if (rows.length === 0) return <p className={styles.none}>None.</p>
  return (
    <PlainTable
      caption={caption}
      columns={[
        { head: "Who" },
        { head, isNumber: true },
        { head: "People", isNumber: true },
        { head: "The last" },
      ]}
      rows={rows.map((row) => ({
        key: row.actor,
        cells: [
          <Link key="who" href={auditHref({ ...days, actor: row.actor })} prefetch={false}>
            {row.name}
          </Link>,
          count(row.times),
          count(row.people),
          moment(row.lastAt, timeZone),
        ],
      }))}
    />
  )
}

function spokenDays({ from, to }: AuditAnswers["days"]): string {
  if (from === null && to === null) return counted(0, "day", "days")
  if (from === null) return `up to ${day(to ?? "")}`
  return to === null ? `since ${day(from)}` : `${day(from)} to ${day(to)}`
}
