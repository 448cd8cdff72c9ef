import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import type { OutreachCase } from "../domain/outreach-case"
import { inForce } from "./case-attempts"
import { caseCondition, type CaseFilters, type CasePart } from "./case-filters"
import { caseColumns, casesOf, type StoredCase } from "./case-rows"
import { Prisma, type PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

const Listed = z.array(
  z.object({
    id: z.number(),
    public_id: z.string(),
    place: z.number().nullable(),
    tier: z.string().nullable(),
    below_by: z.string().nullable(),
    site: z.string().nullable(),
    clinician: z.string().nullable(),
    next_visit_on: z.string().nullable(),
    assigned_name: z.string().nullable(),
    acknowledged_name: z.string().nullable(),
    acknowledged_at: z.date().nullable(),
    tried: z.array(z.object({ onDay: z.string(), channel: z.string(), outcome: z.string() })),
  }),
)

/** A row of the list: the case, where it stands in the order of the latest look, and the attempts of this round, earliest first. */
export type ListedCase = StoredCase & Omit<z.infer<typeof Listed>[number], "id">

/** What narrows the list: which part of it, and the place after which it goes on. */
export type CaseListAsked = {
  scope: Scope
  on: string
  which: CasePart
  filters?: CaseFilters
  after: number
  limit: number
}

/** The columns of a row of the list; for a select over `outreach_cases` as `c` and `patients` as `p`. */
export const listedColumns = Prisma.sql`
  ${caseColumns}, p.public_id::text as public_id, c.place, c.tier, c.below_by, c.site, c.clinician,
  c.next_visit_on::text as next_visit_on, c.acknowledged_at,
  (select u.name from users as u where u.id = c.assigned_to) as assigned_name,
  (select u.name from users as u where u.id = c.acknowledged_by) as acknowledged_name,
  coalesce((
    select jsonb_agg(jsonb_build_object('onDay', e.on_day, 'channel', e.channel, 'outcome', e.outcome) order by e.id)
    from outreach_events as e
    where e.case_id = c.id and e.kind = 'attempt' and e.round = c.round and ${inForce}), '[]'::jsonb) as tried`

/** Rows of `listedColumns`. */
export function listedOf(rows: unknown): ListedCase[] {
  const listed = Listed.parse(rows)
  return casesOf(rows).flatMap((one, index) => {
    const beside = listed[index]
    return beside ? [{ ...beside, ...one }] : []
  })
}

/**
 * A page of the cases in their order: who is to be contacted on a day, the urgent, which nothing hides, or those who are
 * left out of both for now. Who is kept from contact is on none. Closed cases are in the order of their closing, latest
 * first, and go on after so many.
 */
export async function listCases(client: PrismaClient, asked: CaseListAsked): Promise<ListedCase[]> {
  const { on, which, filters, after, limit } = asked
  const those = caseCondition({ which, on, filters })
  const page =
    which === "closed"
      ? Prisma.sql`where ${those} order by c.closed_on desc, c.id desc limit ${limit}::int offset ${after}::int`
      : Prisma.sql`where ${those} and c.place > ${after}::int order by c.place limit ${limit}::int`
  const rows = await inScope(
    client,
    asked.scope,
    (transaction) => transaction.$queryRaw`
      with page as (select c.* from outreach_cases as c ${page})
      select ${listedColumns}
      from page as c join patients as p on p.patient_id = c.patient_id
      order by ${which === "closed" ? Prisma.sql`c.closed_on desc, c.id desc` : Prisma.sql`c.place`}`,
  )
  return listedOf(rows)
}

/** The cases of some people, whatever became of them, in their order. */
export async function casesOfPeople(
  client: PrismaClient,
  asked: { scope: Scope; publicIds: readonly string[] },
): Promise<ListedCase[]> {
  const rows = await inScope(
    client,
    asked.scope,
    (transaction) => transaction.$queryRaw`
      select ${listedColumns}
      from outreach_cases as c join patients as p on p.patient_id = c.patient_id
      where p.public_id = any(${[...asked.publicIds]}::uuid[])
      order by c.place, c.id`,
  )
  return listedOf(rows)
}

/** Some cases by their own numbers, whatever became of them, in their order. */
export async function casesByNumber(
  client: PrismaClient,
  asked: { scope: Scope; ids: readonly number[] },
): Promise<ListedCase[]> {
  const rows = await inScope(
    client,
    asked.scope,
    (transaction) => transaction.$queryRaw`
      select ${listedColumns}
      from outreach_cases as c join patients as p on p.patient_id = c.patient_id
      where c.id = any(${[...asked.ids]}::int[])
      order by c.place, c.id`,
  )
  return listedOf(rows)
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
      where e.kind = 'attempt' and e.on_day <= ${asked.upTo}::date and ${inForce}
      order by e.patient_id, e.on_day desc, e.id desc`,
  )
  return new Map(
    Attempts.parse(rows).map(({ patient_id: patientId, on_day: onDay, channel, outcome }) => [
      patientId,
      { onDay, channel, outcome },
    ]),
  )
}
