import type { BookedVisit } from "../../../../lib/questions/booked-visits"
import type { ListedCase } from "../../../../lib/store/case-list"
import { notNamed } from "./search-params"

/** A visit with what is on record about contacting the person; null of who never had a reason. */
export type VisitRow = { visit: BookedVisit; known: ListedCase | null }

/** The visits of a day with one clinician: who has something urgent first, each part by the clock. */
export type VisitSheet = { id: string; clinician: string; rows: readonly VisitRow[] }

export const noClinician = "No clinician named"

/** The visits of a day by clinician in the order of names, last those that are booked with nobody by name. */
export function visitSheets(
  visits: readonly BookedVisit[],
  cases: readonly ListedCase[],
): readonly VisitSheet[] {
  const caseById = new Map(cases.map((one) => [one.public_id, one]))
  const sheets = new Map<string, { clinician: string; rows: VisitRow[] }>()
  for (const visit of visits) {
    const id = visit.clinician_id ?? notNamed
    const sheet = sheets.get(id) ?? { clinician: clinicianOf(visit), rows: [] }
    sheet.rows.push({ visit, known: caseById.get(visit.public_id) ?? null })
    sheets.set(id, sheet)
  }
  return [...sheets]
    .map(([id, { clinician, rows }]) => ({ id, clinician, rows: urgentFirst(rows) }))
    .toSorted((one, other) => orderOf(one).localeCompare(orderOf(other)) || one.id.localeCompare(other.id))
}

/** Whether something urgent stands open about the person, acknowledged or not. */
export function isUrgent({ known }: VisitRow): boolean {
  return known !== null && known.case.closed === null && known.case.reasons.some((held) => held.isUrgent)
}

export function hasReason({ known }: VisitRow): boolean {
  return known !== null && known.case.reasons.length > 0
}

function clinicianOf({ clinician_id: id, clinician_name: name }: BookedVisit): string {
  if (id === null) return noClinician
  return name ?? "A clinician not on the staff list"
}

function urgentFirst(rows: readonly VisitRow[]): VisitRow[] {
  return [...rows.filter(isUrgent), ...rows.filter((row) => !isUrgent(row))]
}

function orderOf({ id, clinician }: { id: string; clinician: string }): string {
  return id === notNamed ? "\uffff" : clinician
}
