import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import type { OutreachCase } from "../domain/outreach-case"
import { caseColumns, casesOf, type StoredCase } from "./case-rows"
import { Prisma, type PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

const Listed = z.array(
  z.object({
    id: z.number(),
    public_id: z.string(),
    place: z.number(),
    tier: z.string(),
    below_by: z.string().nullable(),
    site: z.string().nullable(),
    clinician: z.string().nullable(),
    next_visit_on: z.string().nullable(),
    last_attempt_on: z.string().nullable(),
    attempts: z.number(),
  }),
)

/** A row of the list: the case, and where it stands in the order of the latest look. */
export type ListedCase = StoredCase & Omit<z.infer<typeof Listed>[number], "id">

/** What narrows the list: urgent ones or the others, whose they are, and the place after which it goes on. */
export type CaseListAsked = {
  scope: Scope
  on: string
  which: "urgent" | "to contact"
  assignedTo?: string
  after: number
  limit: number
}

/**
 * A page of the open cases in their order: who is to be contacted on a day, or the urgent, which nothing hides. Who is kept
 * from contact is on none, and who has a visit soon stands on the visit's list unless urgent.
 */
export async function listCases(client: PrismaClient, asked: CaseListAsked): Promise<ListedCase[]> {
  const { on, which, assignedTo, after, limit } = asked
  const kind =
    which === "urgent"
      ? Prisma.sql`c.tier = 'urgent'`
      : Prisma.sql`c.tier <> 'urgent' and not c.is_booked_soon and (c.again_on is null or c.again_on <= ${on}::date)`
  const own = assignedTo === undefined ? Prisma.empty : Prisma.sql`and c.assigned_to = ${assignedTo}::uuid`
  const rows = await inScope(
    client,
    asked.scope,
    (transaction) => transaction.$queryRaw<unknown[]>`
      with page as (
        select c.* from outreach_cases as c
        where c.state = 'open' and c.kept_from is null and c.place > ${after}::int and ${kind} ${own}
        order by c.place limit ${limit}::int
      )
      select ${caseColumns}, p.public_id::text as public_id, c.place, c.tier, c.below_by, c.site, c.clinician,
        c.next_visit_on::text as next_visit_on,
        (select max(e.on_day)::text from outreach_events as e
          where e.case_id = c.id and e.kind = 'attempt') as last_attempt_on,
        (select count(*)::int from outreach_events as e
          where e.case_id = c.id and e.kind = 'attempt' and e.round = c.round) as attempts
      from page as c join patients as p on p.patient_id = c.patient_id
      order by c.place`,
  )
  const listed = Listed.parse(rows)
  return casesOf(rows).flatMap((one, index) => {
    const beside = listed[index]
    return beside ? [{ ...beside, ...one }] : []
  })
}

/** Every case by the number of its record, as its life has it. */
export async function casesByPatient(client: PrismaClient, scope: Scope): Promise<Map<string, OutreachCase>> {
  const rows = await inScope(
    client,
    scope,
    (transaction) => transaction.$queryRaw`select ${caseColumns} from outreach_cases as c order by c.id`,
  )
  return new Map(casesOf(rows).map((one) => [one.patientId, one.case]))
}

const Attempts = z.array(
  z.object({ patient_id: z.string(), on_day: z.string(), channel: z.string(), outcome: z.string() }),
)

export type LastAttempt = { onDay: string; channel: string; outcome: string }

/** The last attempt to contact each person up to a day. */
export async function lastAttempts(
  client: PrismaClient,
  asked: { scope: Scope; upTo: string },
): Promise<Map<string, LastAttempt>> {
  const rows = await inScope(
    client,
    asked.scope,
    (transaction) => transaction.$queryRaw`
      select distinct on (e.patient_id) e.patient_id, e.on_day::text as on_day, e.channel, e.outcome
      from outreach_events as e
      where e.kind = 'attempt' and e.on_day <= ${asked.upTo}::date
      order by e.patient_id, e.on_day desc, e.id desc`,
  )
  return new Map(
    Attempts.parse(rows).map(({ patient_id: patientId, on_day: onDay, channel, outcome }) => [
      patientId,
      { onDay, channel, outcome },
    ]),
  )
}
