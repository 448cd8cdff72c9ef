import type { DecisionTopic } from "../domain/clinician-decisions"

/**
 * Steps that lead to `decided`: the decision on a topic that is in force on `$as_of`, one a person, with the day on which it was made
 * and the first on which it holds no more. Of several, under records merged since, it is that of the kind the wide row tells.
 */
export function decisionInForce(topic: DecisionTopic | "none"): string {
  return `in_force as (
  select
    d.patient_id, d.kind, d.made_on, d.holds_until,
    row_number() over (
      partition by d.patient_id order by d.kind desc, d.made_on desc, d.holds_until desc nulls last
    ) as place
  from decision_spans as d
  where d.topic = '${topic}'
    and d.made_on <= cast($as_of as date)
    and d.holds_until > cast($as_of as date)
    and (d.undone_on is null or d.undone_on > cast($as_of as date))
),
decided as (
  select f.patient_id, f.kind, f.made_on, f.holds_until
  from in_force as f
  where f.place = 1
)`
}
