import { z } from "zod"
import { reasonIds } from "../domain/reason-ids"
import { heldReasonsSql } from "./reason-sql"
import { reasons } from "./reasons"
import { tiers } from "./types"

/** What decides between two people, in the order in which it is asked. */
export const orderKeys = [
  "tier",
  "order of reasons",
  "risk cell",
  "failure risk",
  "reasons",
  "age of reasons",
  "next visit",
  "number",
] as const

export const OutreachRow = z.object({
  place: z.number(),
  patient_id: z.string(),
  public_id: z.string(),
  given_name: z.string().nullable(),
  family_name: z.string().nullable(),
  birth_date: z.string().nullable(),
  age_years: z.number().nullable(),
  site: z.string().nullable(),
  clinician_name: z.string().nullable(),
  language: z.string().nullable(),
  interpreter_needed: z.boolean(),
  preferred_contact: z.string().nullable(),
  phone: z.string().nullable(),
  email: z.string().nullable(),
  tier: z.enum(tiers),
  risk_cell: z.string().nullable(),
  failure_risk_2_years: z.number().nullable(),
  reasons: z.number(),
  oldest_on: z.string().nullable(),
  last_visit_on: z.string().nullable(),
  next_visit_on: z.string().nullable(),
  /** Whether a visit is booked within the days the clinic set: nobody calls, the visit's list has the reasons. */
  is_booked_soon: z.boolean(),
  /** Why nobody may contact the person, null where somebody may. */
  kept_from: z.enum(["asked not to be contacted", "left", "died"]).nullable(),
  /** What put the person below the one before; null for the first. */
  below_by: z.enum(orderKeys).nullable(),
  reason: z.enum(reasonIds),
  /** Whether the reason itself is urgent; `tier` is that of the person's most pressing one. */
  is_urgent: z.boolean(),
  fact_on: z.string().nullable(),
  value: z.number().nullable(),
  second_value: z.number().nullable(),
  comparator: z.string().nullable(),
  falls_out_on: z.string().nullable(),
})

export type OutreachRow = z.infer<typeof OutreachRow>

/**
 * Everybody with a reason to be contacted on one day, in their order, a row for each reason. Asked of the running day, or of a day
 * computed by itself. The order: tier, the first reason of that tier in the order the clinic set (if it set one), risk cell, 2-year failure risk, number of reasons, the oldest fact behind one (none
 * at all is the oldest), the next visit, and a number that stays.
 *
 * Shape: parameters `$as_of` and `$today`, the calendar's day (a person who died or left since is kept from contact).
 * Source: the keys and their order are common practice, no source; the risk cell is that of KDIGO 2024.
 */
export const outreachList = {
  sql: `with held as materialized (
${heldReasonsSql(reasons)}
),
people_tiers as (
  select held.patient_id, min(held.tier) as tier from held group by held.patient_id
),
people_held as (
  select
    held.patient_id,
    people_tiers.tier,
    min(case when held.tier = people_tiers.tier then held.ordered end) as ordered,
    cast(count(*) as integer) as reasons,
    min(coalesce(held.fact_on, date '0001-01-01')) as oldest_on
  from held
  join people_tiers on people_tiers.patient_id = held.patient_id
  group by held.patient_id, people_tiers.tier
),
ranked as (
  select
    h.patient_id,
    h.tier,
    h.ordered,
    h.reasons,
    h.oldest_on,
    p.risk_cell,
    coalesce(case p.risk_cell when 'very high' then 0 when 'high' then 1 when 'moderately increased' then 2 when 'low' then 3 end, 4) as risk_place,
    p.failure_risk_2_years,
    p.next_visit_on,
    p.age_years,
    p.public_id
  from people_held as h
  join patient_month as p on p.patient_id = h.patient_id and p.as_of = cast($as_of as date)
),
placed as (
  select
    k.patient_id,
    k.tier,
    k.reasons,
    k.oldest_on,
    k.risk_cell,
    k.failure_risk_2_years,
    k.next_visit_on,
    k.age_years,
    row_number() over pressing as place,
    case
      when lag(k.patient_id) over pressing is null then null
      when lag(k.tier) over pressing <> k.tier then 'tier'
      when lag(k.ordered) over pressing <> k.ordered then 'order of reasons'
      when lag(k.risk_place) over pressing <> k.risk_place then 'risk cell'
      when lag(k.failure_risk_2_years) over pressing is distinct from k.failure_risk_2_years then 'failure risk'
      when lag(k.reasons) over pressing <> k.reasons then 'reasons'
      when lag(k.oldest_on) over pressing <> k.oldest_on then 'age of reasons'
      when lag(k.next_visit_on) over pressing is distinct from k.next_visit_on then 'next visit'
      else 'number'
    end as below_by
  from ranked as k
  window pressing as (
    order by k.tier, k.ordered, k.risk_place, k.failure_risk_2_years desc nulls last, k.reasons desc, k.oldest_on,
      k.next_visit_on nulls last, k.public_id
  )
)
select
  cast(placed.place as integer) as place,
  placed.patient_id,
  people.public_id,
  people.given_name,
  people.family_name,
  people.birth_date,
  placed.age_years,
  people.site,
  people.clinician_name,
  people.language,
  people.interpreter_needed,
  people.preferred_contact,
  people.phone,
  people.email,
  case placed.tier ${tiers.map((tier, place) => `when ${place} then '${tier}'`).join(" ")} end as tier,
  placed.risk_cell,
  placed.failure_risk_2_years,
  placed.reasons,
  nullif(placed.oldest_on, date '0001-01-01') as oldest_on,
  recent.last_visit_on,
  placed.next_visit_on,
  coalesce(placed.next_visit_on <= cast($today as date) + t.outreach_booked_days, false) as is_booked_soon,
  case
    when people.died_on <= cast($today as date) then 'died'
    when people.left_on <= cast($today as date) then 'left'
    when people.do_not_contact then 'asked not to be contacted'
  end as kept_from,
  placed.below_by,
  held.reason,
  held.tier = ${tiers.indexOf("urgent")} as is_urgent,
  held.fact_on,
  held.value,
  held.second_value,
  held.comparator,
  held.falls_out_on
from placed
join people on people.patient_id = placed.patient_id
join recent_facts_at as recent on recent.patient_id = placed.patient_id and recent.as_of = cast($as_of as date)
join held on held.patient_id = placed.patient_id
cross join settings as t
order by placed.place, held.tier, held.ordered, held.place`,
  Row: OutreachRow,
} as const
