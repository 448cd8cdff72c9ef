import { classWords } from "../../../_ui/class-words"
import type { DrugCourse } from "../../../../lib/questions/patient-courses"
import { DrugBar, isNoteUnder } from "./drug-bar"
import { lanesOf, type Lane } from "./drug-lanes"
import styles from "./drug-track.module.css"
import { percentAt, yearStarts, type TimeSpan } from "./time-scale"
import { placed } from "../../../_ui/placed"

/** The drugs as bars by class: the dose in the bar where it became that, the reason beside the end. */
export function DrugTrack({ courses, span }: { courses: readonly DrugCourse[]; span: TimeSpan }) {
  const lanes = lanesOf(courses)
  return (
    <section className={styles.drugs} aria-label="Drugs">
      <h2>Drugs</h2>
      <p className="visually-hidden">{finding(courses)}</p>
      <div aria-hidden="true">
        {lanes.length === 0 ? <p className={styles.none}>no counted drug in these 36 months</p> : null}
        {lanes.map((lane) => (
          <div key={`${lane.class} ${lane.place}`} className={styles.lane}>
            <span className={styles.class}>{lane.place === 0 ? laneWords(lane) : null}</span>
            <LanePlot lane={lane} span={span} />
          </div>
        ))}
      </div>
    </section>
  )
}

function LanePlot({ lane, span }: { lane: Lane; span: TimeSpan }) {
  const isTall = lane.courses.some((_course, place) => isNoteUnder(lane, place, span))
  return (
    <div className={styles.plot} data-tall={isTall}>
      {yearStarts(span).map((start) => (
        <span
          key={start.day}
          className={styles.year}
          {...placed({ left: `${percentAt(span, start.day)}%` })}
        />
      ))}
      {lane.courses.map((course, place) => (
        <DrugBar key={`${course.drug} ${course.started_on}`} lane={lane} place={place} span={span} />
      ))}
    </div>
  )
}

function laneWords(lane: Lane): string {
  return lane.class === null ? "no class" : classWords(lane.class)
}

function finding(courses: readonly DrugCourse[]): string {
  const active = courses.filter((course) => course.is_active && course.class !== null)
  if (active.length === 0) return "No drug of a counted class is active."
  return `Active: ${active.map((course) => `${course.drug} (${classWords(course.class ?? "")})`).join(", ")}.`
}
