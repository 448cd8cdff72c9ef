-- The doses and supplies of those on several classes on each as-of date: how many classes are at half of a usual maximum daily
-- dose or above, at the maximum, below half, or of a dose nobody knows; and the most days of the last 180 that the supply of one
-- of the drugs did not cover (empty: no supply is recorded). Bits are counted, as a set of classes is kept as one number.
-- source: half of the usual maximum as an adequate dose, common research rule, from memory
with several as (
  select d.patient_id, d.as_of
  from drugs_at as d
  join settings as s on bit_count(d.class_set) >= s.drugs_several
),
active as (
  select several.patient_id, several.as_of, spans.order_key, spans.runs_out_on, i.ingredient, i.class
  from several
  join order_spans as spans
    on spans.patient_id = several.patient_id
    and spans.started_on <= several.as_of
    and (spans.ends_on is null or spans.ends_on > several.as_of)
  join order_ingredients as i on i.order_key = spans.order_key and i.class is not null
),
-- An order that ends by its supply alone adds nothing once the next one of its drug has started.
adding as (
  select active.patient_id, active.as_of, active.class, active.ingredient, doses.daily_mg
  from active
  left join order_doses as doses on doses.order_key = active.order_key
  where doses.order_key is null
    or not (coalesce(doses.next_started_on <= active.as_of, false) and active.as_of < doses.only_supply_before)
),
shares as (
  select
    adding.patient_id,
    adding.as_of,
    adding.class,
    case
      when count(adding.daily_mg) = count(*)
        then sum(adding.daily_mg) / min(cast(listed.max_daily_mg as double))
    end as share
  from adding
  left join drug_ingredients as listed on listed.ingredient = adding.ingredient
  group by adding.patient_id, adding.as_of, adding.class, adding.ingredient
),
classes as (
  select
    patient_id,
    as_of,
    class,
    case
      when max(share) >= 1 then 'maximum'
      when max(share) >= 0.5 then 'half'
      when count(share) < count(*) then 'unknown'
      else 'below half'
    end as dose
  from shares
  group by patient_id, as_of, class
),
doses as (
  select
    patient_id,
    as_of,
    cast(count(case when dose in ('half', 'maximum') then 1 end) as integer) as classes_at_half,
    cast(count(case when dose = 'maximum' then 1 end) as integer) as classes_at_maximum,
    cast(count(case when dose = 'below half' then 1 end) as integer) as classes_below_half,
    cast(count(case when dose = 'unknown' then 1 end) as integer) as classes_dose_unknown
  from classes
  group by patient_id, as_of
),
taken as (
  select patient_id, as_of, ingredient
  from active
  group by patient_id, as_of, ingredient
  having count(runs_out_on) > 0
),
uncovered as (
  select
    taken.patient_id,
    taken.as_of,
    taken.ingredient,
    sum(
      case
        when g.gap_from is null then 0
        else least(coalesce(g.gap_before, taken.as_of + 1), taken.as_of + 1) - greatest(g.gap_from, taken.as_of - 179)
      end
    ) as days
  from taken
  left join supply_gaps as g
    on g.patient_id = taken.patient_id
    and g.ingredient = taken.ingredient
    and g.gap_from <= taken.as_of
    and coalesce(g.gap_before, date '9999-12-31') > taken.as_of - 179
  group by taken.patient_id, taken.as_of, taken.ingredient
),
gaps as (
  select patient_id, as_of, cast(max(days) as integer) as supply_gap_days
  from uncovered
  group by patient_id, as_of
)
select
  doses.patient_id,
  doses.as_of,
  doses.classes_at_half,
  doses.classes_at_maximum,
  doses.classes_below_half,
  doses.classes_dose_unknown,
  gaps.supply_gap_days
from doses
left join gaps on gaps.patient_id = doses.patient_id and gaps.as_of = doses.as_of
