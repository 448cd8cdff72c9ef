import { z } from "zod"

const text = z.string().nullable()

export const WatchedPlan = z.object({
  public_id: z.string(),
  given_name: text,
  family_name: text,
  topic: z.enum(["ras_blocker", "sglt2_inhibitor", "pressure"]),
  made_on: z.string(),
  /** Two calendar months after it was made; later than that it is not in time. */
  due_on: z.string(),
  /** The first day of the drug; of pressure the day of a class or dose that came after the plan. */
  started_on: text,
  state: z.enum(["started", "taken back", "waiting", "not started in time"]),
  /** The first potassium (not haemolysed) and creatinine of days 1 to 28 after the start of an ACE inhibitor or ARB. */
  potassium_on: text,
  creatinine_on: text,
  /** Whether both tests were done; null before a start, and of other plans. */
  tests: z.enum(["done", "waiting", "missing"]).nullable(),
})

export type WatchedPlan = z.infer<typeof WatchedPlan>

/**
 * What became of each plan made by a day: a start on the day of the plan or later counts; a plan that was taken back or replaced
 * is watched no more. After a start of an ACE inhibitor or ARB, a switch from one to the other too, the tests that follow it.
 */
const watchedSql = `with plans as (
  select m.patient_id, m.topic, m.made_on, m.due_on, m.undone_on, cast($as_of as date) as as_of
  from plans_made as m
  where m.made_on <= cast($as_of as date) and m.topic <> 'diet'
),
starts as (
  select r.patient_id, 'ras_blocker' as topic, r.started_on
  from ras_kind_starts as r
  union all
  select spans.patient_id, 'sglt2_inhibitor', spans.started_on
  from order_spans as spans
  join order_ingredients as i on i.order_key = spans.order_key
  where i.kind = 'sglt2_inhibitor'
  union all
  select a.patient_id, 'pressure', a.plan_on
  from plans_at as a
  where a.as_of <= cast($as_of as date)
),
followed as (
  select plans.patient_id, plans.topic, plans.made_on, plans.undone_on, min(starts.started_on) as started_on
  from plans
  join starts
    on starts.patient_id = plans.patient_id
    and starts.topic = plans.topic
    and starts.started_on >= plans.made_on
    and starts.started_on <= plans.as_of
    and (plans.undone_on is null or starts.started_on <= plans.undone_on)
  group by plans.patient_id, plans.topic, plans.made_on, plans.undone_on
),
watched as (
  select plans.*, followed.started_on, r.started_on as tested_from,
    case when r.potassium_on <= plans.as_of then r.potassium_on end as potassium_on,
    case when r.creatinine_on <= plans.as_of then r.creatinine_on end as creatinine_on
  from plans
  left join followed
    on followed.patient_id = plans.patient_id
    and followed.topic = plans.topic
    and followed.made_on = plans.made_on
    and followed.undone_on is not distinct from plans.undone_on
  left join ras_kind_starts as r
    on plans.topic = 'ras_blocker' and r.patient_id = plans.patient_id and r.started_on = followed.started_on
)
select
  people.public_id,
  people.given_name,
  people.family_name,
  w.topic,
  w.made_on,
  w.due_on,
  w.started_on,
  case
    when w.started_on is not null then 'started'
    when w.undone_on <= w.as_of then 'taken back'
    when w.as_of <= w.due_on then 'waiting'
    else 'not started in time'
  end as state,
  w.potassium_on,
  w.creatinine_on,
  case
    when w.tested_from is null then null
    when w.potassium_on is not null and w.creatinine_on is not null then 'done'
    when w.as_of <= w.tested_from + 28 then 'waiting'
    else 'missing'
  end as tests
from watched as w
join people on people.patient_id = w.patient_id`

const inOrder =
  "order by w.due_on, lower(people.family_name), lower(people.given_name), w.patient_id, w.topic, w.made_on"

/** What became of every plan, those due first before the others. */
export const planWatch = {
  sql: `${watchedSql}
${inOrder}`,
  Row: WatchedPlan,
} as const

/** What became of the plans made about one person. */
export const planWatchOfPerson = {
  sql: `${watchedSql}
where people.public_id = cast($public_id as varchar)
${inOrder}`,
  Row: WatchedPlan,
} as const
