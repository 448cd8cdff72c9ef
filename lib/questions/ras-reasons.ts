import { z } from "zod"
import { decisionInForce } from "./decision-in-force"
import { listedIds } from "./listed-ids"

export const rasReasonIds = ["decision", "angioedema", "both kinds", "potassium", "pressure"] as const

export const RasReason = z.object({
  public_id: z.string(),
  reason: z.enum(rasReasonIds),
  /** Of a decision: what was decided. */
  kind: z.string().nullable(),
  /** Null where the record has no day. */
  since: z.string().nullable(),
  /** The first day on which it holds no more; null where nothing ends it. */
  until: z.string().nullable(),
})

export type RasReason = z.infer<typeof RasReason>

/** Why those listed take no ACE inhibitor or ARB, as the measure counts it, each with the days between which it holds. */
export const rasReasons = {
  sql: `with ${listedIds},
person as (
  select p.patient_id, p.public_id, p.as_of, p.ras_decision, p.has_ras_angioedema, p.is_intolerant_to_ras,
    p.is_potassium_high_lately, p.potassium_on, p.is_pressure_low_lately, p.bp_on
  from patient_month as p
  join listed on listed.public_id = p.public_id
  where p.as_of = cast($as_of as date)
),
${decisionInForce("ras_blocker")},
reactions as (
  select r.patient_id,
    min(case when r.is_angioedema then r.recorded_on end) as angioedema_on,
    max(r.recorded_on) as recorded_on
  from ras_intolerance as r
  where r.starts_on <= cast($as_of as date)
  group by r.patient_id
),
reasons as (
  select person.public_id, 1 as place, 'decision' as reason, person.ras_decision as kind,
    decided.made_on as since, decided.holds_until as until
  from person
  left join decided on decided.patient_id = person.patient_id
  where person.ras_decision is not null
  union all
  select person.public_id, 2, 'angioedema', null, reactions.angioedema_on, null
  from person left join reactions on reactions.patient_id = person.patient_id where person.has_ras_angioedema
  union all
  select person.public_id, 3, 'both kinds', null, reactions.recorded_on, null
  from person left join reactions on reactions.patient_id = person.patient_id where person.is_intolerant_to_ras
  union all
  select public_id, 4, 'potassium', null, potassium_on, potassium_on + 90 from person where is_potassium_high_lately
  union all
  select public_id, 5, 'pressure', null, bp_on, bp_on + 90 from person where is_pressure_low_lately
)
select public_id, reason, kind, since, until
from reasons
order by public_id, place`,
  Row: RasReason,
} as const
