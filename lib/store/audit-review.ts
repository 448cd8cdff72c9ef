import "server-only"
import { z } from "zod"
import { duringDays, type AuditFilter } from "./audit-log"
import { Prisma, type PrismaClient } from "./generated/client"

type Days = Pick<AuditFilter, "from" | "to" | "timeZone">

const Busy = z.object({
  actor: z.string(),
  name: z.string(),
  day: z.string(),
  people: z.number(),
  /** Of the people opened on each of the days on which this person opened any. */
  median: z.number(),
  days: z.number(),
})
const AfterHours = z.object({
  actor: z.string(),
  name: z.string(),
  openings: z.number(),
  people: z.number(),
  lastAt: z.date(),
})
const Taken = z.object({
  actor: z.string(),
  name: z.string(),
  files: z.number(),
  people: z.number(),
  lastAt: z.date(),
})

export type AuditReview = {
  busy: z.infer<typeof Busy>[]
  afterHours: z.infer<typeof AfterHours>[]
  taken: z.infer<typeof Taken>[]
}

/** Opening a patient, or the row of an extract that is about one. */
const opened = Prisma.sql`e.action in ('patient.open', 'source-row.open') and e.outcome = 'done'`
const asFile = Prisma.sql`
  e.action in ('patients.export', 'visits.export', 'cases.export', 'letters.export', 'rejected-rows.export', 'record.export')
  and e.outcome = 'done'`

/** The working day on the clinic's clock, Monday to Friday. Common practice, no source. */
export const workingHours = { from: 6, to: 20 } as const

/** What a reviewer of the log looks at first, over some days; counted, never judged. */
export async function reviewAudit(client: PrismaClient, days: Days): Promise<AuditReview> {
  const { timeZone } = days
  const [busy, afterHours, taken] = await Promise.all([
    client.$queryRaw`
      with openings as (
        select e.actor, e.actor_name, e.seq, (e.at at time zone ${timeZone})::date as day, p.public_id
        from audit_entries as e
          join audit_people as p on p.people_hash = e.people_hash
        where ${opened} and ${duringDays(days)}
      ),
      per_day as (
        select o.actor, (array_agg(o.actor_name order by o.seq desc))[1] as name, o.day, count(distinct o.public_id)::int as people
        from openings as o group by o.actor, o.day
      ),
      own as (
        select d.actor, percentile_cont(0.5) within group (order by d.people) as median, count(*)::int as days
        from per_day as d group by d.actor
      )
      select d.actor, d.name, d.day::text as day, d.people, o.median, o.days
      from per_day as d
        join own as o on o.actor = d.actor
      where d.people > o.median
      order by d.people - o.median desc, d.day desc, d.actor limit 10`,
    client.$queryRaw`
      select e.actor, (array_agg(e.actor_name order by e.seq desc))[1] as name, count(distinct e.seq)::int as openings,
        count(distinct p.public_id)::int as people, max(e.at) as "lastAt"
      from audit_entries as e
        join audit_people as p on p.people_hash = e.people_hash
      where ${opened} and ${duringDays(days)} and (
        extract(isodow from e.at at time zone ${timeZone}) in (6, 7)
        or extract(hour from e.at at time zone ${timeZone}) < ${workingHours.from}
        or extract(hour from e.at at time zone ${timeZone}) >= ${workingHours.to})
      group by e.actor order by openings desc, e.actor limit 10`,
    client.$queryRaw`
      select e.actor, (array_agg(e.actor_name order by e.seq desc))[1] as name, count(*)::int as files,
        sum(e.people)::int as people, max(e.at) as "lastAt"
      from audit_entries as e
      where ${asFile} and ${duringDays(days)}
      group by e.actor order by people desc, files desc, e.actor limit 10`,
  ])
  return {
    busy: z.array(Busy).parse(busy),
    afterHours: z.array(AfterHours).parse(afterHours),
    taken: z.array(Taken).parse(taken),
  }
}
