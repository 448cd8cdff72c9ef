import { counted, day } from "../../../../lib/speech/format"
import type { PatientVisit } from "../../../../lib/questions/patient-visits"
import { markHref } from "./mark-href"
import { percentAt, type TimeSpan } from "./time-scale"
import { NothingThere, Track } from "./track"
import { placed } from "../../../_ui/placed"
import styles from "./visit-track.module.css"

/** The visits: a tick each, a hospital stay as long as it lasted. */
export function VisitTrack({ visits, span }: { visits: readonly PatientVisit[]; span: TimeSpan }) {
  const stays = visits.filter((visit) => visit.kind === "inpatient" || visit.kind === "emergency")
  return (
    <Track name="Visits" span={span} height={14} finding={finding(visits, stays.length)}>
      {visits.length === 0 ? <NothingThere>no visit in these 36 months</NothingThere> : null}
      {visits.map((visit, place) => {
        const left = percentAt(span, visit.started_on)
        const right = visit.kind === "inpatient" ? percentAt(span, visit.ended_on ?? visit.started_on) : left
        return (
          <a
            key={place}
            tabIndex={-1}
            href={markHref(visit.sources, "visits")}
            title={visitWords(visit)}
            className={`${styles.visit} ${styles[visit.kind]}`}
            {...placed({ left: `${left}%`, width: `calc(${right - left}% + 2px)` })}
          />
        )
      })}
    </Track>
  )
}

export function visitWords(visit: PatientVisit): string {
  const end = visit.ended_on && visit.ended_on !== visit.started_on ? ` to ${day(visit.ended_on)}` : ""
  return `${visit.kind}, ${day(visit.started_on)}${end}`
}

function finding(visits: readonly PatientVisit[], stays: number): string {
  return `${counted(visits.length, "visit", "visits")}, ${stays} of them in hospital or emergency.`
}
