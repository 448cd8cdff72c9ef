import { dietSodium } from "../measures/diet-sodium"

/**
 * Steps that go before a question of somebody's sodium at a day: whom the measure of the limit counts with a value, and what the
 * records behind that value are. The value, its series and its window are those of `patient_month`; `$as_of` is the day.
 */
export const sodiumSteps = `
counted as (
  select p.*, s.diet_sodium_within_limit as standing
  from patient_month as p
  join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
  where p.as_of = cast($as_of as date) and s.diet_sodium_within_limit not in ('outside', 'excluded')
),
assessed as (
  select * from counted where standing <> 'unknown'
),
records_behind as (
  select a.patient_id, r.method, r.day, r.comparator,
    cast(r.sodium_mg as double) as sodium_mg, cast(r.potassium_mg as double) as potassium_mg
  from assessed as a
  join as_of_windows as w on w.as_of = a.as_of
  join sodium_records as r
    on r.patient_id = a.patient_id and r.series = a.sodium_in_year_series and r.day <= a.as_of
    and r.day > case when a.sodium_mg is null then w.year_after else w.diet_after end
),
behind as (
  select
    b.patient_id,
    case when count(distinct b.method) > 1 then 'recall_24h and food_record' else min(b.method) end as methods,
    bool_or(b.comparator is not null) as has_comparator,
    sodium_potassium_ratio_molar(
      avg(b.sodium_mg) filter (where b.potassium_mg is not null), avg(b.potassium_mg)
    ) as ratio
  from records_behind as b
  group by b.patient_id
)`

/** The place of a way of asking in the order in which screens tell them, the headline first. */
export function seriesPlace(column: string): string {
  const places = dietSodium.series.map((name, place) => `when '${name}' then ${place}`)
  return `case ${column} ${places.join(" ")} end`
}
