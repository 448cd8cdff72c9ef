import type { Direction, NewsDay } from "../measures/types"

/** The steps of `newsDayStepsOf` for everybody. */
export const newsDaySteps = newsDayStepsOf({ values: "patient_values", spans: "order_spans" })

/**
 * The steps, each a `with` entry, that lead to `news_days`: for everybody on `$as_of` the day on which each fact that a
 * standing may rest on was recorded last. Of drugs and decisions only days after `$earlier_as_of` are looked up. A stop is
 * one that is on record; a supply that ran out is no fact of its day. `values` and `spans` name where the rows of
 * `patient_values` and `order_spans` are read that are asked about.
 */
export function newsDayStepsOf({ values, spans }: { values: string; spans: string }): string {
  return `
order_days as (
  select
    spans.patient_id,
    i.class,
    i.kind,
    case when spans.started_on <= cast($as_of as date) then spans.started_on end as started_on,
    case when o.stopped_on = spans.ends_on and spans.ends_on <= cast($as_of as date) then spans.ends_on end as stopped_on
  from ${spans} as spans
  join orders as o on o.order_key = spans.order_key
  join order_ingredients as i on i.order_key = spans.order_key
  where spans.started_on > cast($earlier_as_of as date) or spans.ends_on > cast($earlier_as_of as date)
),
drug_news as (
  select
    o.patient_id,
    max(o.started_on) filter (where o.class is not null) as class_started_on,
    max(o.stopped_on) filter (where o.class is not null) as class_stopped_on,
    max(o.started_on) filter (where o.kind in ('ace_inhibitor', 'arb')) as ace_arb_started_on,
    max(o.stopped_on) filter (where o.kind in ('ace_inhibitor', 'arb')) as ace_arb_stopped_on,
    max(o.stopped_on) filter (where o.kind in ('ace_inhibitor', 'arb', 'direct_renin_inhibitor'))
      as ras_kind_stopped_on,
    max(o.started_on) filter (where o.kind = 'sglt2_inhibitor') as sglt2_started_on,
    max(o.stopped_on) filter (where o.kind = 'sglt2_inhibitor') as sglt2_stopped_on,
    max(o.started_on) filter (where o.class in ('central_agonist', 'beta_blocker')) as withdrawal_started_on
  from order_days as o
  group by o.patient_id
),
ras_kind_news as (
  select r.patient_id, max(r.started_on) as ras_kind_started_on
  from drug_runs as r
  where r.what = 'kind' and r.started_on <= cast($as_of as date) and r.started_on > cast($earlier_as_of as date)
  group by r.patient_id
),
stop_news as (
  select
    s.patient_id,
    max(s.stopped_on) filter (where s.class in ('central_agonist', 'beta_blocker')) as withdrawal_stop_on,
    max(s.stopped_on) filter (where s.stopped_on <= cast($as_of as date) - 30) as followed_stop_on
  from class_stops as s
  where s.stopped_on <= cast($as_of as date) and s.stopped_on > cast($earlier_as_of as date)
  group by s.patient_id
),
ras_start_news as (
  select r.patient_id, max(r.started_on) as ras_start_on
  from ras_starts as r
  where r.started_on <= cast($as_of as date) - 28 and r.started_on > cast($earlier_as_of as date)
  group by r.patient_id
),
decision_news as (
  select
    f.patient_id,
    max(f.made_on) filter (where f.made_on <= cast($as_of as date)) as pressure_decided_on,
    max(f.undone_on) filter (where f.undone_on <= cast($as_of as date)) as pressure_undone_on
  from decisions as f
  where f.topic = 'pressure'
  group by f.patient_id
),
news_days as (
  select
    p.patient_id,
    p.bp_on, p.counted_day, p.home_average_on, p.plan_on,
    decided.pressure_decided_on, decided.pressure_undone_on,
    drugs.class_started_on, drugs.class_stopped_on, drugs.ace_arb_started_on, drugs.ace_arb_stopped_on,
    ras_kinds.ras_kind_started_on, drugs.ras_kind_stopped_on, starts.ras_start_on,
    drugs.sglt2_started_on, drugs.sglt2_stopped_on,
    drugs.withdrawal_started_on, stops.withdrawal_stop_on, stops.followed_stop_on,
    p.egfr_on, p.egfr_tested_on, p.slope_to, p.risk_acr_on, p.acr_last_on, p.urine_last_on,
    case when p.tests_due is distinct from before.tests_due then greatest(p.egfr_on, p.urine_on) end as risk_cell_on,
    p.potassium_on, p.sodium_in_year_on, p.dietitian_seen_on
  from ${values} as p
  left join ${values} as before
    on before.patient_id = p.patient_id and before.as_of = cast($earlier_as_of as date)
  left join drug_news as drugs on drugs.patient_id = p.patient_id
  left join ras_kind_news as ras_kinds on ras_kinds.patient_id = p.patient_id
  left join stop_news as stops on stops.patient_id = p.patient_id
  left join ras_start_news as starts on starts.patient_id = p.patient_id
  left join decision_news as decided on decided.patient_id = p.patient_id
  where p.as_of = cast($as_of as date) and p.in_panel
)`
}

/** Over the row `days` of `news_days`: whether one of a measure's days lies after the earlier day. */
export function isNewsSql(days: readonly NewsDay[]): string {
  const isLater = days.map((day) => `days.${day} > cast($earlier_as_of as date)`).join(" or ")
  return `coalesce(${isLater || "false"}, false)`
}

/** Whether a standing (null: not in the panel) is in the rate's denominator. */
export function isCountedSql(standing: string, direction: Direction): string {
  const counted = direction === "up" ? "('met', 'not met', 'unknown')" : "('met', 'not met')"
  return `coalesce(${standing} in ${counted}, false)`
}

/** Over a row `m` of two standings, `earlier` and `standing`, and whether each `was_counted` and `is_counted`: the change. */
export const changeSql = changeBetween("m.earlier", "m.standing", {
  was: "m.was_counted",
  is: "m.is_counted",
})

/**
 * The change of the same row by the standings that today's facts and settings give, `earlier_today` and `standing_today`, and
 * `was_counted_today`, `is_counted_today`. Only days whose month is closed can have other ones.
 */
export const changeTodaySql = changeBetween("m.earlier_today", "m.standing_today", {
  was: "m.was_counted_today",
  is: "m.is_counted_today",
})

/** Over the same row with its `change` and whether to gain or to lose `is_gain_news`, `is_loss_news`: the first cause that holds. */
export const causeSql = `case m.change
    when 'gained' then case when m.is_gain_news then 'news' else 'time' end
    when 'lost' then case when m.is_loss_news then 'news' else 'time' end
    when 'joined' then ${standingCause("m.earlier")}
    when 'left' then ${standingCause("m.standing")}
  end`

/**
 * Over the same row with `change_today` and whether facts alone moved the person since a closing, `is_late`: the cause in
 * place of `causeSql`, else null. A change that no news explains, and that is none when both days are known as today, lies
 * in what a closed month was closed with.
 */
export const sinceClosingSql = `case
    when m.change is null or m.change is not distinct from m.change_today then null
    when (m.change = 'gained' and m.is_gain_news) or (m.change = 'lost' and m.is_loss_news) then null
    when m.is_late then 'late'
    else 'setting'
  end`

function changeBetween(earlier: string, later: string, counted: { was: string; is: string }): string {
  return `case
    when ${counted.is} and ${counted.was} and ${later} = 'met' and ${earlier} <> 'met' then 'gained'
    when ${counted.is} and ${counted.was} and ${later} <> 'met' and ${earlier} = 'met' then 'lost'
    when ${counted.is} and not ${counted.was} then 'joined'
    when ${counted.was} and not ${counted.is} then 'left'
  end`
}

/** What the standing outside the denominator says of how somebody came from it or went to it. */
function standingCause(standing: string): string {
  return `case ${standing}
      when 'excluded' then 'exclusion' when 'exception' then 'exception' when 'outside' then 'population'
      when 'unknown' then 'measured' else 'panel'
    end`
}
