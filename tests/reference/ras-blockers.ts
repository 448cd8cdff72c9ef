import type { Day } from "./day"
import { coursesOfKinds, isActive, startsAfterPause, type Course } from "./drugs"

const aceInhibitorOrArb = ["ACE inhibitor", "ARB"]
const rasKinds = ["ACE inhibitor", "ARB", "direct renin inhibitor"]
const potassiumRaisingKinds = [...rasKinds, "steroidal", "finerenone"]
const overlapDays = 30

export function isOnAceInhibitorOrArb(courses: Course[], on: Day): boolean {
  return isOnAnyOf(aceInhibitorOrArb, courses, on)
}

export function isOnRasBlockerOfAnyKind(courses: Course[], on: Day): boolean {
  return isOnAnyOf(rasKinds, courses, on)
}

/** A RAS blocker of any kind, a steroidal mineralocorticoid antagonist or finerenone. */
export function isOnDrugThatRaisesPotassium(courses: Course[], on: Day): boolean {
  return isOnAnyOf(potassiumRaisingKinds, courses, on)
}

export function isOnSglt2Inhibitor(courses: Course[], on: Day): boolean {
  return isOnAnyOf(["SGLT2 inhibitor"], courses, on)
}

export function rasHistory(courses: Course[], on: Day): "on" | "stopped" | "never" {
  if (isOnAceInhibitorOrArb(courses, on)) return "on"
  const wasActiveEarlier = coursesOfKinds(courses, aceInhibitorOrArb).some((course) => course.startedOn < on)
  return wasActiveEarlier ? "stopped" : "never"
}

/** The days on which an ACE inhibitor or ARB starts after at least 90 days without either. */
export function rasStarts(courses: Course[]): Day[] {
  return startsAfterPause(coursesOfKinds(courses, aceInhibitorOrArb))
}

/** Two kinds of RAS blocker, each of them active on every day of the last 31 including the day itself. */
export function isDualRasBlockade(courses: Course[], on: Day): boolean {
  const kindsThroughout = rasKinds.filter((kind) => {
    const ofKind = coursesOfKinds(courses, [kind])
    for (let day = on - overlapDays; day <= on; day += 1) {
      if (!ofKind.some((course) => isActive(course, day))) return false
    }
    return true
  })
  return kindsThroughout.length >= 2
}

function isOnAnyOf(kinds: string[], courses: Course[], on: Day): boolean {
  return coursesOfKinds(courses, kinds).some((course) => isActive(course, on))
}
