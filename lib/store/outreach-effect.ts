import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import { inForce } from "./case-attempts"
import type { PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

const Row = z.object({
  /** Null in the row of all reasons together. */
  reason: z.string().nullable(),
  people: z.number(),
  contacted: z.number(),
  reached: z.number(),
  /** Contacted people beside whom somebody could be put. */
  paired: z.number(),
  pairs_30: z.number(),
  contacted_resolved_30: z.number(),
  others_resolved_30: z.number(),
  pairs_90: z.number(),
  contacted_resolved_90: z.number(),
  others_resolved_90: z.number(),
})

/** What came of a reason: whom it held, who was contacted, and of pairs with 30 and 90 days behind them how many resolved. */
export type EffectRow = z.infer<typeof Row>

export type EffectAsked = {
  scope: Scope
  from: string
  to: string
  turnedInto: Readonly<Record<string, readonly string[]>>
}

/**
 * What came of the reasons that began in a period, each person's first of a kind, up to the latest look at the data.
 *
 * Contacted: an attempt while the reason held, before the day on which it was gone (what came that day was on its way). Each is
 * put beside one person with the same reason, begun in the same month, who on the same day after its beginning still had it
 * and had not been contacted; both are counted from that day on, so that nobody is helped by the days before. The other is
 * chosen by a number that knows nothing of what came later, stands beside one person at most, and is then not counted as
 * contacted, whatever happened afterwards. Resolved: gone by the facts without having turned into another. A pair counts
 * once its days are over for both and neither stopped being followed meanwhile.
 */
export async function effectOfOutreach(client: PrismaClient, asked: EffectAsked): Promise<EffectRow[]> {
  const { scope, from, to } = asked
  const counted = Object.keys(asked.turnedInto)
  const turns = Object.entries(asked.turnedInto).flatMap(([reason, later]) =>
    later.map((other) => ({ reason, other })),
  )
  const rows = await inScope(
    client,
    scope,
    (transaction) => transaction.$queryRaw`
    with turns as materialized (
      select t.reason, t.other from jsonb_to_recordset(${JSON.stringify(turns)}::jsonb) as t (reason text, other text)
    ),
    latest as (
      select max(c.looked_on) as on_day from outreach_cases as c
    ),
    spells as (
      select distinct on (r.case_id, r.reason)
        r.id, r.case_id, r.reason, r.began_on, r.ended_on, r.ended_why, date_trunc('month', r.began_on) as month
      from outreach_case_reasons as r
      join outreach_cases as c on c.id = r.case_id
      where r.began_on between ${from}::date and ${to}::date
        and r.reason = any(${counted}::text[])
        and c.kept_from is distinct from 'asked not to be contacted'
      order by r.case_id, r.reason, r.began_on, r.id
    ),
    attempted as (
      select
        s.id,
        min(e.on_day) as first_on,
        bool_or(e.outcome in ('reached, agreed', 'reached, declined', 'reached, already done', 'wants a call back'))
          as is_reached
      from spells as s
      join outreach_events as e on e.case_id = s.case_id and e.kind = 'attempt' and ${inForce}
      cross join latest
      where e.on_day >= s.began_on and e.on_day <= latest.on_day and (s.ended_on is null or e.on_day < s.ended_on)
      group by s.id
    ),
    turned as (
      select distinct s.id
      from spells as s
      join turns on turns.reason = s.reason
      join outreach_case_reasons as other on other.case_id = s.case_id and other.reason = turns.other
      where other.began_on <= s.ended_on and (other.ended_on is null or other.ended_on > s.ended_on)
    ),
    told as materialized (
      select
        s.id, s.case_id, s.reason, s.month, s.began_on, s.ended_on,
        a.first_on,
        a.first_on - s.began_on as wait_days,
        coalesce(a.is_reached, false) as is_reached,
        case
          when s.ended_on is null then null
          when s.ended_why is distinct from 'by the facts' then 'not followed'
          when turned.id is not null then 'turned'
          else 'resolved'
        end as ending
      from spells as s
      left join attempted as a on a.id = s.id
      left join turned on turned.id = s.id
    ),
    contacted as (
      select
        t.id, t.reason, t.month, t.first_on, t.wait_days, t.ended_on, t.ending,
        row_number() over (partition by t.reason, t.month order by md5('contacted ' || t.id), t.id) as place,
        count(*) over (partition by t.reason, t.month) as places
      from told as t
      where t.first_on is not null
    ),
    others as (
      select
        t.id, t.reason, t.month, t.began_on, t.first_on, t.ended_on, t.ending,
        row_number() over (partition by t.reason, t.month order by md5('other ' || t.id), t.id) as place
      from told as t
    ),
    beside as materialized (
      select distinct on (c.id)
        c.id, c.reason, c.first_on as from_on, c.ended_on, c.ending,
        o.id as other_id, o.began_on + c.wait_days as other_from_on, o.ended_on as other_ended_on, o.ending as other_ending
      from contacted as c
      join others as o on o.reason = c.reason and o.month = c.month and (o.place - 1) % c.places = c.place - 1
      cross join latest
      where o.id <> c.id
        and o.began_on + c.wait_days <= latest.on_day
        and (o.ended_on is null or o.ended_on > o.began_on + c.wait_days)
        and (o.first_on is null or o.first_on > o.began_on + c.wait_days)
      order by c.id, o.place
    ),
    pairs as (
      select b.* from beside as b where not exists (select from beside as other where other.other_id = b.id)
    ),
    judged as (
      select
        p.id,
        h.days,
        coalesce(p.ending = 'resolved' and p.ended_on <= p.from_on + h.days, false) as is_resolved,
        coalesce(p.other_ending = 'resolved' and p.other_ended_on <= p.other_from_on + h.days, false) as is_other_resolved
      from pairs as p
      cross join (values (30), (90)) as h (days)
      cross join latest
      where p.from_on + h.days <= latest.on_day
        and p.other_from_on + h.days <= latest.on_day
        and not coalesce(p.ending = 'not followed' and p.ended_on <= p.from_on + h.days, false)
        and not coalesce(p.other_ending = 'not followed' and p.other_ended_on <= p.other_from_on + h.days, false)
    )
    select
      t.reason,
      count(distinct t.case_id)::int as people,
      count(distinct t.case_id) filter (where t.first_on is not null)::int as contacted,
      count(distinct t.case_id) filter (where t.is_reached)::int as reached,
      count(p.id)::int as paired,
      count(month.id)::int as pairs_30,
      count(month.id) filter (where month.is_resolved)::int as contacted_resolved_30,
      count(month.id) filter (where month.is_other_resolved)::int as others_resolved_30,
      count(quarter.id)::int as pairs_90,
      count(quarter.id) filter (where quarter.is_resolved)::int as contacted_resolved_90,
      count(quarter.id) filter (where quarter.is_other_resolved)::int as others_resolved_90
    from told as t
    left join pairs as p on p.id = t.id
    left join judged as month on month.id = t.id and month.days = 30
    left join judged as quarter on quarter.id = t.id and quarter.days = 90
    group by grouping sets ((t.reason), ())
    order by t.reason nulls first`,
  )
  return z.array(Row).parse(rows)
}
