import "server-only"
import { Prisma } from "./generated/client"

/** The parts of a day's cases, none of which has anybody of another: who is kept from contact is in none. */
export const caseParts = ["urgent", "to contact", "waiting", "booked soon", "closed"] as const

export type CasePart = (typeof caseParts)[number]

/** What a part is narrowed by; what is absent or null narrows nothing. `whose` is an account, or "nobody". */
export type CaseFilters = {
  readonly reason?: string | null
  readonly site?: string | null
  readonly clinician?: string | null
  readonly whose?: string | null
  readonly language?: string | null
  /** Of the closed: those that closed themselves on this day or later. */
  readonly closedItselfSince?: string | null
}

/** Which cases are in a part of the list on a day; a condition over `outreach_cases` as `c`. */
export function caseCondition(of: { which: CasePart; on: string; filters?: CaseFilters }): Prisma.Sql {
  return Prisma.join([partCondition(of), ...filterConditions(of.filters ?? {})], " and ")
}

export function partCondition({ which, on }: { which: CasePart; on: string }): Prisma.Sql {
  const isOpen = Prisma.sql`c.state = 'open' and c.kept_from is null`
  switch (which) {
    case "urgent":
      return Prisma.sql`${isOpen} and c.tier = 'urgent'`
    case "to contact":
      return Prisma.sql`${isOpen} and c.tier <> 'urgent' and not c.is_booked_soon
        and (c.again_on is null or c.again_on <= ${on}::date)`
    case "booked soon":
      return Prisma.sql`${isOpen} and c.tier <> 'urgent' and c.is_booked_soon`
    case "waiting":
      return Prisma.sql`c.state <> 'closed' and c.kept_from is null
        and (c.state = 'snoozed' or (c.tier <> 'urgent' and not c.is_booked_soon and c.again_on > ${on}::date))`
    case "closed":
      return Prisma.sql`c.state = 'closed' and c.kept_from is null`
  }
}

function filterConditions(filters: CaseFilters): Prisma.Sql[] {
  const { reason, site, clinician, whose, language, closedItselfSince } = filters
  return [
    isGiven(reason)
      ? Prisma.sql`exists (select from outreach_case_reasons as held
          where held.case_id = c.id and held.reason = ${reason} and held.ended_on is null)`
      : null,
    isGiven(site) ? Prisma.sql`c.site = ${site}` : null,
    isGiven(clinician) ? Prisma.sql`c.clinician = ${clinician}` : null,
    isGiven(language) ? Prisma.sql`c.language = ${language}` : null,
    whose === "nobody" ? Prisma.sql`c.assigned_to is null` : null,
    isGiven(whose) && whose !== "nobody" ? Prisma.sql`c.assigned_to = ${whose}::uuid` : null,
    isGiven(closedItselfSince)
      ? Prisma.sql`c.close_reason = 'no reason left' and c.closed_on >= ${closedItselfSince}::date`
      : null,
  ].flatMap((condition) => condition ?? [])
}

function isGiven(filter: string | null | undefined): filter is string {
  return filter !== null && filter !== undefined
}
