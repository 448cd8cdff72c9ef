import { sentenceCase } from "../../../../lib/speech/format"
import type { DrugCourse } from "../../../../lib/questions/patient-courses"
import type { Lane } from "./drug-lanes"
import styles from "./drug-track.module.css"
import { courseWords, doseWords, endWords } from "./drug-words"
import { percentAt, type TimeSpan } from "./time-scale"
import { placed } from "../../../_ui/placed"

/** Room, in percent of the line, that a note beside an end takes at the least. */
const noteRoom = 26

/** The part of the line, in percent, under which a later dose has no room for its words. */
const doseRoom = 4

/** The width of a bar, in percent of the line, that holds its drug's name with a dose. */
const nameRoom = 15

/**
 * One course as a bar: its doses in it, or before it where the bar is too short; how it ended beside it, or under it where
 * there is no room beside.
 */
export function DrugBar({ lane, place, span }: { lane: Lane; place: number; span: TimeSpan }) {
  const course = lane.courses[place]
  if (!course) return null
  const left = percentAt(span, course.started_on)
  const right = percentAt(span, course.ends_on ?? span.openTo)
  const room = roomAfter(lane, place, span)
  const note = endWords(course)
  const isNameBefore = right - left < nameRoom && roomBefore(lane, place, span) >= noteRoom
  const look = course.is_active ? (lane.class === null ? styles.uncounted : styles.active) : styles.ended
  return (
    <>
      <a
        tabIndex={-1}
        href="#figures-drugs"
        title={courseWords(course)}
        className={`${styles.bar} ${look}`}
        {...placed({ left: `${left}%`, width: `${Math.max(0.6, right - left)}%` })}
      >
        {(isNameBefore ? [] : labels(course, span)).map((label, position, all) => {
          const from = inBar(label.at, left, right)
          const to = inBar(all[position + 1]?.at ?? right, left, right)
          return (
            <span key={position} {...placed({ left: `${from}%`, width: `${to - from}%` })}>
              {position === 0 || right - label.at >= doseRoom ? label.text : null}
            </span>
          )
        })}
      </a>
      {isNameBefore ? (
        <span className={`${styles.note} ${styles.name}`} {...placed({ right: `${100 - left}%` })}>
          {`${sentenceCase(course.drug)} ${doseWords(course, course.step_days.length - 1)}`.trim()}
        </span>
      ) : null}
      {note !== null && room >= noteRoom ? (
        <span
          className={`${styles.note} ${course.stop_reason === null ? "" : styles.reason}`}
          {...placed({ left: `${right}%`, width: `${room}%` })}
        >
          {note}
        </span>
      ) : null}
      {isNoteUnder(lane, place, span) ? (
        <span
          className={`${styles.note} ${styles.reason} ${styles.under}`}
          {...placed(right > 50 ? { right: `${100 - right}%` } : { left: `${right}%` })}
        >
          {note}
        </span>
      ) : null}
    </>
  )
}

/** A reason that has no room beside its bar's end stands under it, and the lane is taller. */
export function isNoteUnder(lane: Lane, place: number, span: TimeSpan): boolean {
  const course = lane.courses[place]
  if (!course || course.stop_reason === null || endWords(course) === null) return false
  return roomAfter(lane, place, span) < noteRoom
}

/** The part of the line before a bar that neither another bar nor that one's note takes. */
function roomBefore(lane: Lane, place: number, span: TimeSpan): number {
  const course = lane.courses[place]
  const before = lane.courses[place - 1]
  if (!course) return 0
  const free = percentAt(span, course.started_on)
  if (!before) return free
  const isNoted = endWords(before) !== null
  return free - percentAt(span, before.ends_on ?? span.openTo) - (isNoted ? noteRoom : 0)
}

function roomAfter(lane: Lane, place: number, span: TimeSpan): number {
  const next = lane.courses[place + 1]
  const end = percentAt(span, lane.courses[place]?.ends_on ?? span.openTo)
  return (next ? percentAt(span, next.started_on) : 100) - end
}

/**
 * The drug where its bar begins with its first known dose, and each later dose where it became that; of several doses
 * before the line begins, the latest.
 */
function labels(course: DrugCourse, span: TimeSpan): { at: number; text: string }[] {
  const left = percentAt(span, course.started_on)
  const steps = course.step_days.map((stepDay, place) => ({
    at: Math.max(left, percentAt(span, stepDay)),
    text: doseWords(course, place),
  }))
  const first = steps.findLast((step) => step.at <= left) ?? steps[0]
  const later = first ? steps.slice(steps.indexOf(first) + 1) : []
  return [{ at: left, text: `${sentenceCase(course.drug)} ${first?.text ?? ""}`.trim() }, ...later]
}

function inBar(at: number, left: number, right: number): number {
  return right === left ? 0 : ((at - left) / (right - left)) * 100
}
