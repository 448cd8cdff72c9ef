import type { OutreachCase } from "../domain/outreach-case"
import { standingOf } from "./case-standing"
import type { OutreachRow } from "./outreach-list"

/** Somebody to contact with all their reasons, in the order of the list. */
export type PersonToContact = { person: OutreachRow; reasons: readonly OutreachRow[] }

/**
 * Whom of a day's list somebody is to contact: who asked not to be, left or died is left out whatever else is true. `cases`
 * are those of the present: on today's list whoever is snoozed, waited for or spoken for by a closing is left out, and whoever
 * has a visit soon is counted and left to the visit's list unless urgent. A past day has no cases: it shows its reasons.
 */
export function peopleToContact(list: {
  rows: readonly OutreachRow[]
  cases: ReadonlyMap<string, OutreachCase> | null
  today: string
}): { people: PersonToContact[]; bookedSoon: number } {
  const { cases, today } = list
  const reachable = byPerson(list.rows).filter(({ person }) => person.kept_from === null)
  if (cases === null) return { people: reachable, bookedSoon: 0 }
  const free = reachable.filter(({ person }) => {
    const known = cases.get(person.patient_id)
    const standing = known ? standingOf(known, today).kind : "to contact"
    return standing === "to contact" || standing === "urgent"
  })
  const people = free.filter(({ person }) => person.tier === "urgent" || !person.is_booked_soon)
  return { people, bookedSoon: free.length - people.length }
}

function byPerson(rows: readonly OutreachRow[]): PersonToContact[] {
  const people = new Map<string, { person: OutreachRow; reasons: OutreachRow[] }>()
  for (const row of rows) {
    const known = people.get(row.patient_id)
    if (known) known.reasons.push(row)
    else people.set(row.patient_id, { person: row, reasons: [row] })
  }
  return [...people.values()]
}
