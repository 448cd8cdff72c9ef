import { ageInYears, isInLastMonths, type Day } from "./day"
import type { Person } from "./people"

const panelVisits = ["office", "telehealth", "dialysis"]

/** Is the person one of the clinic's panel on that day? */
export function isInPanel(person: Person, on: Day): boolean {
  const isRegistered = person.registeredOn <= on
  const hasLeft = person.leftOn !== null && person.leftOn <= on
  const hasDied = person.diedOn !== null && person.diedOn <= on
  const isAdult = ageInYears(person.birth, on) >= 18
  const wasSeen = person.visits.some(
    (visit) => panelVisits.includes(visit.kind) && isInLastMonths(visit.startedOn, on, 18),
  )
  return isRegistered && !hasLeft && !hasDied && isAdult && wasSeen
}
