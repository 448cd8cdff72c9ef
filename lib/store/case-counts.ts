import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import { caseCondition, partCondition, type CaseFilters, type CasePart } from "./case-filters"
import { Prisma, type PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

const names = z
  .array(z.string())
  .nullable()
  .transform((found) => found ?? [])

const DayCounts = z.array(
  z.object({
    cases: z.number(),
    urgent: z.number(),
    to_contact: z.number(),
    mine: z.number(),
    nobodys: z.number(),
    waiting: z.number(),
    booked_soon: z.number(),
    closed_itself: z.number(),
    asked_not: z.number(),
    sites: names,
    clinicians: names,
    languages: names,
    accounts: z.array(z.object({ id: z.string(), name: z.string() })),
  }),
)

export type DayCounts = z.infer<typeof DayCounts>[number]

/** How many cases are in each part of a day, and what the list can be narrowed by; one pass over the cases. */
export async function countDay(
  client: PrismaClient,
  asked: { scope: Scope; on: string; mine: string; closedItselfSince: string },
): Promise<DayCounts> {
  const { scope, on, mine, closedItselfSince } = asked
  const part = (which: CasePart) => Prisma.sql`count(*) filter (where ${partCondition({ which, on })})`
  const filters = { closedItselfSince }
  const rows = await inScope(
    client,
    scope,
    (transaction) => transaction.$queryRaw`
      with groups as materialized (
        select c.site, c.clinician, c.language, c.assigned_to, count(*) as cases,
          ${part("urgent")} as urgent, ${part("to contact")} as to_contact, ${part("waiting")} as waiting,
          ${part("booked soon")} as booked_soon,
          count(*) filter (where ${caseCondition({ which: "closed", on, filters })}) as closed_itself,
          count(*) filter (where c.state <> 'closed' and c.kept_from = 'asked not to be contacted') as asked_not
        from outreach_cases as c
        group by c.site, c.clinician, c.language, c.assigned_to
      )
      select coalesce(sum(g.cases), 0)::int as cases, coalesce(sum(g.urgent), 0)::int as urgent,
        coalesce(sum(g.to_contact), 0)::int as to_contact,
        coalesce(sum(g.to_contact + g.urgent) filter (where g.assigned_to = ${mine}::uuid), 0)::int as mine,
        coalesce(sum(g.to_contact + g.urgent) filter (where g.assigned_to is null), 0)::int as nobodys,
        coalesce(sum(g.waiting), 0)::int as waiting, coalesce(sum(g.booked_soon), 0)::int as booked_soon,
        coalesce(sum(g.closed_itself), 0)::int as closed_itself, coalesce(sum(g.asked_not), 0)::int as asked_not,
        array_agg(distinct g.site) filter (where g.site is not null) as sites,
        array_agg(distinct g.clinician) filter (where g.clinician is not null) as clinicians,
        array_agg(distinct g.language) filter (where g.language is not null) as languages,
        (select coalesce(jsonb_agg(distinct jsonb_build_object('id', u.id, 'name', u.name)), '[]'::jsonb)
          from groups as own join users as u on u.id = own.assigned_to) as accounts
      from groups as g`,
  )
  const [counts] = DayCounts.parse(rows)
  if (!counts) throw new Error("a count has one row")
  return counts
}

const Listed = z.array(z.object({ total: z.number(), before: z.number() }))

/** How many cases a list has, and how many of them stand on the pages before. */
export async function countListed(
  client: PrismaClient,
  asked: { scope: Scope; on: string; which: CasePart; filters: CaseFilters; after: number },
): Promise<{ total: number; before: number }> {
  const { scope, which, after } = asked
  const isBefore = which === "closed" ? Prisma.sql`false` : Prisma.sql`c.place <= ${after}::int`
  const rows = await inScope(
    client,
    scope,
    (transaction) => transaction.$queryRaw`
      select count(*)::int as total, count(*) filter (where ${isBefore})::int as before
      from outreach_cases as c where ${caseCondition(asked)}`,
  )
  const [counts] = Listed.parse(rows)
  if (!counts) throw new Error("a count has one row")
  return which === "closed" ? { ...counts, before: Math.min(after, counts.total) } : counts
}
