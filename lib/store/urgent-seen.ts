import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import { HeldReason } from "../domain/outreach-case"
import { inForce } from "./case-attempts"
import { Prisma, type PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

const Counts = z.array(
  z.object({
    began: z.number(),
    seen: z.number(),
    seen_soon: z.number(),
    unseen: z.number(),
    missed: z.number(),
  }),
)

const Missed = z.array(HeldReason.extend({ publicId: z.string(), beganOn: z.string(), endedOn: z.string() }))

/** Something urgent that ended before anybody acknowledged it. */
export type MissedUrgent = z.infer<typeof Missed>[number]

/** What became of the urgent reasons that began in a period. */
export type UrgentSeen = {
  began: number
  seen: number
  /** Of those seen: on the day they were found, or the next. */
  seenSoon: number
  /** That hold, and nobody has acknowledged. */
  unseen: number
  missed: number
  /** The latest of the missed, at most so many as were asked for. */
  latestMissed: readonly MissedUrgent[]
}

/** Whether the clinic saw what was urgent: acknowledged while it held, not yet, or ended before anybody did. */
export function urgentSeen(
  client: PrismaClient,
  asked: { scope: Scope; from: string; to: string; limit: number },
): Promise<UrgentSeen> {
  const { scope, from, to, limit } = asked
  const told = Prisma.sql`
    select r.*, (
      select min(e.on_day) from outreach_events as e
      where e.case_id = r.case_id and e.kind = 'acknowledge' and ${inForce}
        and e.on_day >= r.began_on and (r.ended_on is null or e.on_day <= r.ended_on)) as seen_on
    from outreach_case_reasons as r
    where r.is_urgent and r.began_on between ${from}::date and ${to}::date`
  return inScope(client, scope, async (transaction) => {
    const [counts] = Counts.parse(
      await transaction.$queryRaw`
        with told as (${told})
        select count(*)::int as began, count(t.seen_on)::int as seen,
          count(*) filter (where t.seen_on <= t.began_on + 1)::int as seen_soon,
          count(*) filter (where t.seen_on is null and t.ended_on is null)::int as unseen,
          count(*) filter (where t.seen_on is null and t.ended_on is not null)::int as missed
        from told as t`,
    )
    if (!counts) throw new Error("a count has one row")
    const missed = await transaction.$queryRaw`
      with told as (${told})
      select p.public_id::text as "publicId", t.reason, t.is_urgent as "isUrgent", t.fact_on::text as "factOn", t.value,
        t.second_value as "secondValue", t.comparator, t.falls_out_on::text as "fallsOutOn",
        t.began_on::text as "beganOn", t.ended_on::text as "endedOn"
      from told as t join patients as p on p.patient_id = t.patient_id
      where t.seen_on is null and t.ended_on is not null
      order by t.ended_on desc, t.id desc limit ${limit}::int`
    const { seen_soon: seenSoon, ...others } = counts
    return { ...others, seenSoon, latestMissed: Missed.parse(missed) }
  })
}
