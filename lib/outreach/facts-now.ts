import { z } from "zod"
import { factsOfReasonsSql } from "./reason-sql"
import { reasons } from "./reasons"

const pairBreak = "\u001e"
const partBreak = "\u001f"

const FactNow = z.object({
  patient_id: z.string(),
  reason: z.string(),
  fact_on: z.string().nullable(),
  value: z.number().nullable(),
  second_value: z.number().nullable(),
  comparator: z.string().nullable(),
  is_followed: z.boolean(),
})

/**
 * The fact that stands now where a reason held before: the urine that came, the pressure that is no longer high. Shape:
 * parameters `$as_of` and `$pairs` of `pairsOf`; a row for each pair of a person who has a row of that day, with
 * whether the person is in the panel.
 */
export const factsNow = {
  sql: `with asked_pairs as materialized (
  select unnest(string_split(cast($pairs as varchar), '${pairBreak}')) as pair
),
facts as (
${factsOfReasonsSql(reasons)}
)
select facts.patient_id, facts.reason, facts.fact_on, facts.value, facts.second_value, facts.comparator,
  p.in_panel as is_followed
from facts
join patient_month as p on p.patient_id = facts.patient_id and p.as_of = cast($as_of as date)
join asked_pairs on asked_pairs.pair = facts.patient_id || '${partBreak}' || facts.reason
order by facts.patient_id, facts.reason`,
  Row: FactNow,
} as const

export function pairsOf(ended: readonly { patientId: string; reason: string }[]): string {
  return ended.map((one) => `${one.patientId}${partBreak}${one.reason}`).join(pairBreak)
}
