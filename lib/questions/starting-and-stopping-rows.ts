import { ranOut } from "./ran-out"

/**
 * The classes of everybody that have a reason beside the pressure on a day, by the list of such reasons: steps `reasons` and
 * `kept_classes`, a row for each person, class and reason. Parameter `$as_of`.
 */
export const keptClassesSteps = `reasons as (
  select v.patient_id, known.reason
  from patient_values as v
  cross join (values ('heart_failure'), ('atrial_fibrillation'), ('albuminuria')) as known(reason)
  where v.as_of = cast($as_of as date)
    and case known.reason
      when 'heart_failure' then v.heart_failure
      when 'atrial_fibrillation' then v.atrial_fibrillation
      else v.albuminuria = 'confirmed'
    end
),
kept_classes as (
  select distinct c.patient_id, c.class, reasons.reason
  from class_orders as c
  join reasons on reasons.patient_id = c.patient_id
  join drug_reasons as known
    on known.family = c.family and known.reason = reasons.reason and (known.kind is null or known.kind = c.kind)
  where c.started_on <= cast($as_of as date) and (c.ends_on is null or c.ends_on > cast($as_of as date))
)`

/**
 * Everybody on a day, `p` their wide row and `s` their standings, with the classes that stopped lately (`stops`), falls or
 * dizziness on record (`falls`) and whether a class has another reason (`kept`): steps before a select, and its `from`.
 */
export const rowsToStartOrStop = {
  steps: `with ${keptClassesSteps},
kept as (
  select distinct kept_classes.patient_id from kept_classes
),
falls as (
  select c.patient_id, max(c.starts_on) as fell_on
  from condition_spans as c
  where c.condition = 'falls_or_dizziness'
    and c.starts_on <= cast($as_of as date) and (c.ends_on is null or c.ends_on > cast($as_of as date))
  group by c.patient_id
),
run_out as (
  select distinct s.patient_id
  from recent_stops_at as s
  join class_orders as c on c.patient_id = s.patient_id and c.class = s.class and c.ends_on = s.stopped_on
  join orders as o on o.order_key = c.order_key
  where s.as_of = cast($as_of as date) and ${ranOut}
),
stops as (
  select
    s.patient_id,
    min(s.stopped_on) as first_stopped_on,
    min(case when s.measured_on is null then s.stopped_on end) as unmeasured_since,
    bool_or(run_out.patient_id is not null) as is_run_out
  from recent_stops_at as s
  left join run_out on run_out.patient_id = s.patient_id
  where s.as_of = cast($as_of as date)
  group by s.patient_id
)`,
  from: `from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
left join stops on stops.patient_id = p.patient_id
left join falls on falls.patient_id = p.patient_id
left join kept on kept.patient_id = p.patient_id
where p.as_of = cast($as_of as date)`,
} as const
