import { measures } from "../measures/index"
import type { Measure } from "../measures/types"
import {
  causeSql,
  changeSql,
  changeTodaySql,
  isCountedSql,
  isNewsSql,
  newsDayStepsOf,
  sinceClosingSql,
} from "./change-causes"
import { ownPeopleSteps } from "./own-people"
import { attentionStanding } from "./own-visits"
import { urgentStep } from "./urgent-now"

/** Of each measure what a change of its standing depends on, a row a measure. */
const measureRows = measures.map(
  ({ id, direction, theme }, place) =>
    `(${place}, '${id}', ${theme === "safety"}, ${direction === "up"}, '${attentionStanding[direction]}')`,
)

/** Over a row `m` of a measure: what `sql` says of that measure. */
function ofMeasure(sql: (measure: Measure) => string): string {
  return `case m.place
      ${measures.map((measure, place) => `when ${place} then ${sql(measure)}`).join("\n      ")}
    end`
}

function isCounted(standing: string): string {
  return `case when m.is_up then ${isCountedSql(standing, "up")} else ${isCountedSql(standing, "down")} end`
}

/**
 * The standings of the people in the panel on both days that are others, with what a change since a closing rests on. All measures
 * are held against each other in one pass: a select for each would be planned each time, for longer than it runs.
 */
const standingSteps = `
standing_pairs as (
  select
    later.patient_id,
    ${measures.map(({ column }) => `earlier.${column} as earlier_${column}, later.${column} as later_${column}`).join(",\n    ")}
  from patient_standings as later
  join own on own.patient_id = later.patient_id
  join patient_standings as earlier
    on earlier.patient_id = later.patient_id and earlier.as_of = cast($earlier_as_of as date)
  where later.as_of = cast($as_of as date)
),
measure_pairs as (
  select
    s.patient_id, m.*,
    ${ofMeasure(({ column }) => `s.earlier_${column}`)} as earlier,
    ${ofMeasure(({ column }) => `s.later_${column}`)} as standing
  from standing_pairs as s
  cross join (values ${measureRows.join(", ")}) as m(place, measure_id, is_safety, is_up, attention)
),
moves as (
  select
    m.*,
    ${ofMeasure(({ news }) => isNewsSql(news.gained))} as is_gain_news,
    ${ofMeasure(({ news }) => isNewsSql(news.lost))} as is_loss_news
  from measure_pairs as m
  left join news_days as days on days.patient_id = m.patient_id
  where m.standing <> m.earlier
),
known as (
  select
    m.*,
    case when earlier_anew.as_of is null then m.earlier else earlier_anew.standing_today end as earlier_today,
    case when later_anew.as_of is null then m.standing else later_anew.standing_today end as standing_today,
    coalesce(earlier_anew.is_late, false) or coalesce(later_anew.is_late, false) as is_late
  from moves as m
  left join standings_since_closing as earlier_anew
    on earlier_anew.patient_id = m.patient_id and earlier_anew.measure_id = m.measure_id
    and earlier_anew.as_of = cast($earlier_as_of as date)
  left join standings_since_closing as later_anew
    on later_anew.patient_id = m.patient_id and later_anew.measure_id = m.measure_id
    and later_anew.as_of = cast($as_of as date)
),
placed_moves as (
  select
    m.*,
    ${isCounted("m.earlier")} as was_counted, ${isCounted("m.standing")} as is_counted,
    ${isCounted("m.earlier_today")} as was_counted_today, ${isCounted("m.standing_today")} as is_counted_today
  from known as m
),
changed_moves as (
  select m.*, ${changeSql} as change, ${changeTodaySql} as change_today from placed_moves as m
),
judged as (
  select
    m.*,
    case
      when m.standing = m.attention then 'worse'
      when m.change = 'lost' and m.is_up then 'worse'
      when m.change = 'gained' and m.is_up then 'better'
      when m.earlier = m.attention and m.is_counted then 'better'
      when m.earlier = m.attention then 'ended'
    end as kind,
    coalesce(
      ${sinceClosingSql},
      ${causeSql},
      case when case when m.standing = 'met' then m.is_gain_news else m.is_loss_news end then 'news' else 'time' end
    ) as cause
  from changed_moves as m
)`

/** What else is told of somebody: each a select of the columns of `changes`. */
const otherChanges = [
  `select
    u.patient_id, 'urgent' as kind, 'urgent' as change_group, 0 as pressing, u.place, u.reason as word,
    cast(null as varchar) as earlier, cast(null as varchar) as later, cast(null as varchar) as cause,
    u.fact_on as on_day, u.value, u.second_value, u.comparator
  from urgent as u
  join own on own.patient_id = u.patient_id
  where u.fact_on > cast($earlier_as_of as date)`,
  plain({
    columns: `j.patient_id, j.kind, case j.kind when 'worse' then 'worse' else 'better' end,
    case when j.kind = 'worse' and j.is_safety then 1 when j.kind = 'worse' then 2 else 6 end, j.place, j.measure_id,
    j.earlier, j.standing, j.cause, cast(null as date)`,
    from: "judged as j where j.kind is not null",
  }),
  plain({
    columns: `p.patient_id, 'left', 'panel', 3, 0, p.panel_reason, null, null, null, cast(null as date)`,
    from: "pairs as p where p.was_in_panel and not p.in_panel",
  }),
  plain({
    columns: `p.patient_id, 'joined', 'panel', 7, 0, null, null, null, null, cast(null as date)`,
    from: "pairs as p where p.in_panel and not coalesce(p.was_in_panel, false)",
  }),
  plain({
    columns: `p.patient_id, 'eGFR category', 'kidney', case when p.g > p.earlier_g then 3 else 6 end, 0, null,
    p.earlier_g, p.g, null, p.egfr_on`,
    from: "pairs as p where p.in_panel and p.was_in_panel and p.g <> p.earlier_g",
  }),
  plain({
    columns: `p.patient_id, 'urine category', 'kidney', case when p.a > p.earlier_a then 3 else 6 end, 1, null,
    p.earlier_a, p.a, null, p.urine_on`,
    from: "pairs as p where p.in_panel and p.was_in_panel and p.a <> p.earlier_a",
  }),
  plain({
    columns: `s.patient_id, 'class stopped', 'drugs', 4, 0, s.class, null, null, null, s.stopped_on`,
    from: `class_stops as s join own on own.patient_id = s.patient_id
  where s.stopped_on > cast($earlier_as_of as date) and s.stopped_on <= cast($as_of as date)
    and (s.next_started_on is null or s.next_started_on > cast($as_of as date))`,
  }),
  plain({
    columns: `s.patient_id, 'class started', 'drugs', 5, 0, s.class, null, null, null, s.course_started_on`,
    from: `class_starts as s join own on own.patient_id = s.patient_id
  where s.course_started_on > cast($earlier_as_of as date) and s.course_started_on <= cast($as_of as date)`,
  }),
  plain({
    columns: `f.patient_id, 'decision', 'decisions', 5, 1, f.topic, null, f.kind, null, f.made_on`,
    from: `decisions as f join own on own.patient_id = f.patient_id
  where f.made_on > cast($earlier_as_of as date) and f.made_on <= cast($as_of as date)
    and (f.undone_on is null or f.undone_on > cast($as_of as date))`,
  }),
] as const

/** A select of a change without an amount. */
function plain({ columns, from }: { columns: string; from: string }): string {
  return `select ${columns}, cast(null as double), cast(null as double), cast(null as varchar)
  from ${from}`
}

/** What else is read of the people asked about, once: their values on both days and their orders. */
const ownFactSteps = `
own_values as materialized (
  select v.*
  from patient_values as v
  join own on own.patient_id = v.patient_id
  where v.as_of in (cast($as_of as date), cast($earlier_as_of as date))
),
own_spans as (
  select spans.* from order_spans as spans join own on own.patient_id = spans.patient_id
),
pairs as materialized (
  select
    v.patient_id, v.in_panel, v.panel_reason, v.g, v.egfr_on, v.a, v.urine_on,
    before.in_panel as was_in_panel, before.g as earlier_g, before.a as earlier_a
  from own_values as v
  left join own_values as before
    on before.patient_id = v.patient_id and before.as_of = cast($earlier_as_of as date)
  where v.as_of = cast($as_of as date)
)`

/**
 * The steps, each a `with` entry, that lead to `changes`: what changed between `$earlier_as_of` and `$as_of` for the people of
 * `$clinician`, a row a change: `patient_id`, `kind`, `change_group`, `pressing` (0 is most), `place`, `word`, `earlier`, `later`,
 * `cause`, `on_day`, `value`, `second_value`, `comparator`. Who was in the panel on neither day has none. A class starts as the
 * definitions say, and has stopped where it is not active on the day.
 */
export const ownChangeSteps = `${ownPeopleSteps},${ownFactSteps},${newsDayStepsOf({ values: "own_values", spans: "own_spans" })},
${urgentStep},${standingSteps},
class_starts as (
  select distinct c.patient_id, c.class, c.course_started_on from class_orders as c
),
in_panel_then as (
  select distinct v.patient_id from own_values as v where v.in_panel
),
all_changes as (
  ${otherChanges.join("\n  union all\n  ")}
),
changes as (
  select c.* from all_changes as c join in_panel_then as t on t.patient_id = c.patient_id
)`
