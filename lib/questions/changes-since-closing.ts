import type { Measure } from "../measures/types"
import { changeSql, changeTodaySql, isCountedSql, sinceClosingSql } from "./change-causes"

/** By measure, over a row `s` with its `measure_id`. */
function byMeasure(list: readonly Measure[], sql: (measure: Measure) => string): string {
  return `case s.measure_id ${list.map((measure) => `when '${measure.id}' then ${sql(measure)}`).join(" ")} end`
}

/**
 * The steps, each a `with` entry after `pairs`, that lead to `since_closing`: the few whose change between
 * two days lies in what a closed month was closed with, one row for each person and measure of the list with the cause.
 */
export function changesSinceClosing(list: readonly Measure[]): string {
  const isCounted = (standing: string) =>
    byMeasure(list, ({ direction }) => isCountedSql(standing, direction))
  const ofPair = (part: string) => byMeasure(list, ({ column }) => `pairs.${column}_${part}`)
  return `
anew as (
  select
    s.patient_id,
    s.measure_id,
    bool_or(s.as_of = cast($earlier_as_of as date)) as is_earlier_anew,
    bool_or(s.as_of = cast($as_of as date)) as is_later_anew,
    max(s.standing_today) filter (where s.as_of = cast($earlier_as_of as date)) as earlier_today,
    max(s.standing_today) filter (where s.as_of = cast($as_of as date)) as standing_today,
    bool_or(s.is_late) as is_late
  from standings_since_closing as s
  where s.as_of in (cast($earlier_as_of as date), cast($as_of as date))
    and s.measure_id in (${list.map(({ id }) => `'${id}'`).join(", ")})
  group by s.patient_id, s.measure_id
),
known as (
  select
    s.measure_id, s.is_late, s.is_earlier_anew, s.is_later_anew, s.earlier_today, s.standing_today,
    max(${ofPair("earlier")}) as earlier,
    max(${ofPair("later")}) as standing,
    bool_or(${ofPair("gain_news")}) as is_gain_news,
    bool_or(${ofPair("loss_news")}) as is_loss_news
  from anew as s
  join pairs on pairs.patient_id = s.patient_id
  group by
    s.patient_id, s.measure_id, s.is_late, s.is_earlier_anew, s.is_later_anew, s.earlier_today, s.standing_today
),
placed as (
  select
    s.measure_id, s.is_late, s.is_gain_news, s.is_loss_news, s.earlier, s.standing,
    case when s.is_earlier_anew then s.earlier_today else s.earlier end as earlier_today,
    case when s.is_later_anew then s.standing_today else s.standing end as standing_today
  from known as s
),
placed_counts as (
  select
    s.*,
    ${isCounted("s.earlier")} as was_counted, ${isCounted("s.standing")} as is_counted,
    ${isCounted("s.earlier_today")} as was_counted_today, ${isCounted("s.standing_today")} as is_counted_today
  from placed as s
),
placed_changes as (
  select m.*, ${changeSql} as change, ${changeTodaySql} as change_today from placed_counts as m
),
placed_causes as (
  select m.*, ${sinceClosingSql} as cause from placed_changes as m
),
since_closing as (
  select m.measure_id, m.earlier, m.standing, m.change, m.is_gain_news, m.is_loss_news, m.cause
  from placed_causes as m
  where m.cause is not null
)`
}
