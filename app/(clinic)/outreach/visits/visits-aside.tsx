import Link from "next/link"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { count, counted, dayOfYear, numbered, weekday } from "../../../../lib/speech/format"
import { Button } from "../../../_ui/button"
import lineForm from "../../../_ui/line-form.module.css"
import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import { visitsHref, type VisitsView } from "./search-params"
import { hasReason, isUrgent } from "./visit-sheets"
import styles from "./visits.module.css"
import type { VisitsAnswers } from "./visits-answers"

type AsideProps = { answers: VisitsAnswers; view: VisitsView; snapshot: SnapshotMeta }

/** The day in words with its counts, the clinicians of the day, the days ahead, and any other day. */
export function VisitsAside({ answers, view, snapshot }: AsideProps) {
  const { on, ofDay, sheets } = answers
  const rows = sheets.flatMap((sheet) => sheet.rows)
  const urgent = rows.filter(isUrgent).length
  return (
    <div className={styles.aside}>
      <ScreenTitle title={`Visits on ${weekday(on)} ${dayOfYear(on)}`}>
        <p>
          {counted(rows.length, "visit", "visits")}, {count(rows.filter(hasReason).length)} with a reason,{" "}
          {count(urgent)} urgent.
        </p>
        <p>On paper each clinician has sheets of their own.</p>
      </ScreenTitle>
      {ofDay.length > 1 ? (
        <AsidePart title="Clinicians">
          <nav aria-label="Clinicians">
            <ul className={styles.choices}>
              <Choice href={visitsHref({ on })} words="All" isChosen={view.clinician === null}>
                {ofDay.reduce((sum, sheet) => sum + sheet.rows.length, 0)}
              </Choice>
              {ofDay.map((sheet) => (
                <Choice
                  key={sheet.id}
                  href={visitsHref({ on, clinician: sheet.id })}
                  words={sheet.clinician}
                  isChosen={view.clinician === sheet.id}
                >
                  {sheet.rows.length}
                </Choice>
              ))}
            </ul>
          </nav>
        </AsidePart>
      ) : null}
      <AsidePart title="Days ahead, with people booked">
        <Days answers={answers} days={snapshot.settings["outreach.bookedDays"]} />
      </AsidePart>
      <AsidePart>
        <nav aria-label="Outreach">
          <Link href="/outreach" prefetch={false}>
            People to contact
          </Link>
        </nav>
      </AsidePart>
    </div>
  )
}

function Days({ answers: { on, days, today }, days: ahead }: { answers: VisitsAnswers; days: number }) {
  return (
    <nav aria-label="Days">
      {days.length === 0 ? <p className="soft">Nobody within {numbered(ahead, "days")}.</p> : null}
      <ul className={styles.choices}>
        {days.map((one) => (
          <Choice
            key={one.on_day}
            href={visitsHref({ on: one.on_day })}
            words={
              one.on_day === today ? "Today" : `${weekday(one.on_day).slice(0, 3)} ${dayOfYear(one.on_day)}`
            }
            isChosen={one.on_day === on}
          >
            {one.people}
          </Choice>
        ))}
      </ul>
      <form action="/outreach/visits" className={lineForm.form}>
        <label>
          Another day <input type="date" name="on" defaultValue={on} required />
        </label>
        <Button type="submit">Show</Button>
      </form>
    </nav>
  )
}

function Choice(props: { href: string; words: string; isChosen: boolean; children: number }) {
  return (
    <li>
      <Link href={props.href} prefetch={false} aria-current={props.isChosen ? "true" : undefined}>
        {props.words}
      </Link>
      <span>{count(props.children)}</span>
    </li>
  )
}
