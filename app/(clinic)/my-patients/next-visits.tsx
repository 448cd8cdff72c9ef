import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import type { OwnVisit } from "../../../lib/questions/own-visits"
import { count, counted, dayOfYear, weekday } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import type { ChosenMonth } from "../months"
import { PeopleList } from "../people-list"
import list from "../people-list.module.css"
import { mostVisits, type MyPatientsAnswers } from "./my-patients-answers"
import styles from "./my-patients.module.css"
import { VisitRow } from "./visit-row"

type VisitsProps = { answers: MyPatientsAnswers; chosen: ChosenMonth; snapshot: SnapshotMeta }

const heads = ["Person", "Time", "Pressure", "Wants attention", "Before the visit"] as const

/** The first days with visits stand open, so that what changed is not far below. */
const openDays = 2

/** The visits of the next two weeks day by day, each with what to look at and what is to be done before it. */
export function NextVisits({ answers, chosen, snapshot }: VisitsProps) {
  const { visits, today } = answers
  if (!chosen.isRunning) return null
  const days = [...new Set(visits.map((visit) => visit.on_day))]
  return (
    <Theme title="Next visits" id="visits" note={howMany(visits)}>
      {visits.length === 0 ? (
        <p className={list.none}>Nobody has a visit in the book from today to 14 days later.</p>
      ) : null}
      {days.map((on, place) => (
        <details key={on} className={styles.day} open={place < openDays}>
          <summary>
            {on === today ? "Today, " : ""}
            {weekday(on)} {dayOfYear(on)},{" "}
            {counted(visits.filter((visit) => visit.on_day === on).length, "visit", "visits")}
          </summary>
          <Day on={on} answers={answers} snapshot={snapshot} />
        </details>
      ))}
    </Theme>
  )
}

function Day({ on, answers, snapshot }: Omit<VisitsProps, "chosen"> & { on: string }) {
  const ofDay = answers.visits.filter((visit) => visit.on_day === on)
  return (
    <PeopleList caption={`Visits on ${weekday(on)} ${dayOfYear(on)}`} heads={heads} columns={styles.visits}>
      {ofDay.map((visit, place) => (
        <VisitRow
          key={`${visit.public_id} ${place}`}
          visit={visit}
          known={answers.cases.find((one) => one.public_id === visit.public_id) ?? null}
          snapshot={snapshot}
        />
      ))}
    </PeopleList>
  )
}

function howMany(visits: readonly OwnVisit[]): string {
  const total = visits[0]?.total ?? 0
  const words = `${counted(total, "visit", "visits")} from today to 14 days later`
  return total > mostVisits ? `${words}, the first ${count(mostVisits)} here` : words
}
