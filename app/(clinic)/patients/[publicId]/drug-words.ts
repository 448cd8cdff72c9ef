import { doseWords as oneDoseWords } from "../../../../lib/speech/dose-words"
import { day, sentenceCase } from "../../../../lib/speech/format"
import type { DrugCourse } from "../../../../lib/questions/patient-courses"

/** The dose of one step of a course: "50 mg", "12.5 mg twice". */
export function doseWords(course: DrugCourse, place: number): string {
  return oneDoseWords({
    dose: course.step_doses[place] ?? null,
    unit: course.step_units[place] ?? null,
    times: course.step_times[place] ?? 1,
  })
}

/** How a course ended, or null while it has not. */
export function endWords(course: DrugCourse): string | null {
  if (course.is_active || course.ends_on === null) return null
  return course.stop_reason
    ? `stopped ${day(course.ends_on)}: ${course.stop_reason}`
    : `until ${day(course.ends_on)}`
}

/** A whole course in one sentence. */
export function courseWords(course: DrugCourse): string {
  const doses = course.step_days.map((_day, place) => doseWords(course, place)).join(", then ")
  return [
    `${sentenceCase(course.drug)} ${doses}`.trim(),
    `from ${day(course.started_on)}`,
    endWords(course) ?? "active",
  ].join(", ")
}
