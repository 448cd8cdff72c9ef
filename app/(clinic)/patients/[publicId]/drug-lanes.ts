import type { DrugCourse } from "../../../../lib/questions/patient-courses"

/** One line of bars that do not overlap. Courses of one class that do stand in lanes under each other. */
export type Lane = { readonly class: string | null; readonly place: number; readonly courses: DrugCourse[] }

/** The courses in lanes, class by class in the order given. */
export function lanesOf(courses: readonly DrugCourse[]): Lane[] {
  const lanes: Lane[] = []
  for (const course of courses) {
    const ofClass = lanes.filter((lane) => lane.class === course.class)
    const free = ofClass.find((lane) => lane.courses.every((other) => isBefore(other, course)))
    if (free) free.courses.push(course)
    else lanes.push({ class: course.class, place: ofClass.length, courses: [course] })
  }
  return lanes
}

function isBefore(other: DrugCourse, course: DrugCourse): boolean {
  return other.ends_on !== null && other.ends_on <= course.started_on
}
