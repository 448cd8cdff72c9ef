import { z } from "zod"

const text = z.string().nullable()

export const DrugCourse = z.object({
  /** The ingredients; the text as written where it maps to none. */
  drug: z.string(),
  /** Null where the drug counts for no class. */
  class: text,
  kind: text,
  started_on: z.string(),
  /** The first inactive day; null while it has none. */
  ends_on: text,
  is_active: z.boolean(),
  stop_reason: text,
  /** The days on which the dose became another, with what it became; orders without a dose change nothing. */
  step_days: z.array(z.string()),
  step_doses: z.array(z.number()),
  step_units: z.array(text),
  step_times: z.array(z.number()),
  sources: z.array(z.string()),
})

export type DrugCourse = z.infer<typeof DrugCourse>

/**
 * A person's counted orders as courses, over the 36 months to a day: orders of the same ingredients that follow on each
 * other without a gap are one course, whatever the dose. A pill of several classes stands under each of them.
 * Lists: the steps of a course belong to it, and no portable aggregate keeps them in order.
 */
export const patientCourses = {
  sql: `with person as materialized (
  select people.patient_id, w.as_of, w.confirmation_after
  from people
  join as_of_windows as w on w.as_of = cast($as_of as date)
  where people.public_id = cast($public_id as varchar)
),
spans as materialized (
  select
    o.order_key, o.drug, o.dose, o.dose_unit, o.times_per_day, spans.started_on, spans.ends_on, o.stop_reason,
    'medications:' || o.import_id || ':' || o.line as source
  from order_spans as spans
  join person on person.patient_id = spans.patient_id
  join orders as o on o.order_key = spans.order_key
  where spans.started_on <= person.as_of and coalesce(spans.ends_on > person.confirmation_after, true)
),
contents as (
  select
    i.order_key,
    string_agg(distinct i.ingredient, ' + ' order by i.ingredient) as ingredients,
    min(case when i.class is null then i.kind end) as uncounted_kind
  from order_ingredients as i
  join spans on spans.order_key = i.order_key
  group by i.order_key
),
supplied as (
  select c.order_key, c.class, min(c.kind) as kind
  from class_orders as c
  join person on person.patient_id = c.patient_id
  group by c.order_key, c.class
),
told as (
  select
    spans.order_key, coalesce(contents.ingredients, spans.drug) as drug, spans.dose, spans.dose_unit, spans.times_per_day,
    spans.started_on, spans.ends_on, spans.stop_reason, spans.source,
    supplied.class, coalesce(supplied.kind, contents.uncounted_kind) as kind
  from spans
  left join contents on contents.order_key = spans.order_key
  left join supplied on supplied.order_key = spans.order_key
),
followed as (
  select
    told.*,
    max(coalesce(ends_on, date '9999-12-31')) over (
      partition by class, drug order by started_on, order_key rows between unbounded preceding and 1 preceding
    ) as earlier_end
  from told
),
marked as (
  select
    followed.*,
    sum(case when earlier_end is null or started_on > earlier_end then 1 else 0 end) over (
      partition by class, drug order by started_on, order_key rows between unbounded preceding and current row
    ) as course
  from followed
),
dosed as (
  select
    class, drug, course, order_key, started_on, dose, dose_unit,
    coalesce(
      last_value(times_per_day ignore nulls) over (
        partition by class, drug, course order by started_on, order_key rows between unbounded preceding and current row
      ),
      1
    ) as times_per_day
  from marked
  where dose is not null
),
compared as (
  select
    dosed.*,
    lag(dose) over same_course as earlier_dose,
    lag(dose_unit) over same_course as earlier_unit,
    lag(times_per_day) over same_course as earlier_times
  from dosed
  window same_course as (partition by class, drug, course order by started_on, order_key)
),
steps as (
  select
    class, drug, course,
    list(started_on order by started_on, order_key) as step_days,
    list(cast(dose as double) order by started_on, order_key) as step_doses,
    list(dose_unit order by started_on, order_key) as step_units,
    list(cast(times_per_day as double) order by started_on, order_key) as step_times
  from compared
  where earlier_dose is null
    or dose <> earlier_dose or dose_unit is distinct from earlier_unit or times_per_day <> earlier_times
  group by class, drug, course
),
courses as (
  select
    drug, class, course, min(kind) as kind,
    min(started_on) as started_on,
    case when bool_or(ends_on is null) then null else max(ends_on) end as ends_on,
    arg_max(stop_reason, coalesce(ends_on, date '9999-12-31')) as stop_reason,
    list(source order by started_on, source) as sources
  from marked
  group by class, drug, course
)
select
  courses.drug, courses.class, courses.kind, courses.started_on, courses.ends_on,
  courses.ends_on is null or courses.ends_on > person.as_of as is_active,
  courses.stop_reason,
  coalesce(steps.step_days, []) as step_days,
  coalesce(steps.step_doses, []) as step_doses,
  coalesce(steps.step_units, []) as step_units,
  coalesce(steps.step_times, []) as step_times,
  courses.sources
from courses
cross join person
left join steps
  on steps.class is not distinct from courses.class and steps.drug = courses.drug and steps.course = courses.course
order by courses.class nulls last, courses.started_on, courses.drug`,
  Row: DrugCourse,
} as const
