import { z } from "zod"
import { standings } from "../domain/standings"
import { topicOf } from "../measures/decision-measures"
import type { Measure } from "../measures/types"
import { decisionInForce } from "./decision-in-force"
import { byName, listPage, listTotal } from "./list-person"
import { details } from "./measure-details"
import { changeCauses, changeKinds } from "../domain/changes"
import {
  causeSql,
  changeSql,
  changeTodaySql,
  isCountedSql,
  isNewsSql,
  newsDaySteps,
  sinceClosingSql,
} from "./change-causes"

export const MeasurePerson = z.object({
  total: z.number().int(),
  patient_id: z.string(),
  public_id: z.string(),
  given_name: z.string().nullable(),
  family_name: z.string().nullable(),
  age_years: z.number().int(),
  sex: z.string().nullable(),
  site: z.string().nullable(),
  clinician_name: z.string().nullable(),
  standing: z.enum(standings).nullable(),
  earlier: z.enum(standings).nullable(),
  change: z.enum(changeKinds).nullable(),
  cause: z.enum(changeCauses).nullable(),
  reasons: z.array(z.string()),
  panel_reason: z.string().nullable(),
  systolic: z.number().nullable(),
  diastolic: z.number().nullable(),
  systolic_limit: z.number().nullable(),
  diastolic_limit: z.number().nullable(),
  bp_source: z.enum(["office", "home", "ambulatory"]).nullable(),
  bp_on: z.string().nullable(),
  bp_readings: z.number().int().nullable(),
  counted_day: z.string().nullable(),
  counted_lowest_systolic: z.number().nullable(),
  counted_lowest_diastolic: z.number().nullable(),
  classes: z.array(z.string()),
  newest_class_on: z.string().nullable(),
  ras_history: z.enum(["on", "stopped", "never"]),
  ras_stopped_drug: z.string().nullable(),
  ras_stopped_on: z.string().nullable(),
  ras_stop_reason: z.string().nullable(),
  egfr: z.number().nullable(),
  egfr_on: z.string().nullable(),
  acr: z.number().nullable(),
  acr_comparator: z.string().nullable(),
  acr_on: z.string().nullable(),
  a: z.string().nullable(),
  urine_on: z.string().nullable(),
  urine_last_on: z.string().nullable(),
  potassium: z.number().nullable(),
  potassium_comparator: z.string().nullable(),
  potassium_on: z.string().nullable(),
  kinds: z.array(z.string()),
  quarter_ago_systolic: z.number().nullable(),
  quarter_ago_diastolic: z.number().nullable(),
  quarter_ago_bp_on: z.string().nullable(),
  plan_on: z.string().nullable(),
  ras_start_checked_days: z.number().int().nullable(),
  home_average_on: z.string().nullable(),
  egfr_tested_on: z.string().nullable(),
  acr_last_on: z.string().nullable(),
  risk_cell: z.string().nullable(),
  tests_due: z.number().int().nullable(),
  egfr_days_in_year: z.number().int(),
  slope: z.number().nullable(),
  slope_standard_error: z.number().nullable(),
  slope_points: z.number().int().nullable(),
  failure_risk_2_years: z.number().nullable(),
  failure_risk_5_years: z.number().nullable(),
  sodium_mg: z.number().nullable(),
  sodium_in_year_mg: z.number().nullable(),
  sodium_in_year_series: z.string().nullable(),
  sodium_in_year_on: z.string().nullable(),
  dietitian_seen_on: z.string().nullable(),
  next_visit_on: z.string().nullable(),
  /** Of an exception, the clinician's decision that is in force on what the measure asks for, and the day it no longer is. */
  decided: z.string().nullable(),
  decided_until: z.string().nullable(),
})

export type MeasurePerson = z.infer<typeof MeasurePerson>

/**
 * The people behind a number of a measure on a day, by name. `$standing` (or 'counted': all in the rate's denominator) or, against the day `$earlier_as_of`, `$change`
 * and `$cause` say who; `$detail`, `$reason`, `$clinician`, `$site`, `$sex`, `$age`, `$language`, `$race` and `$ethnicity` narrow; null does not. The key '' is not assigned.
 */
export function measurePeople(measure: Measure) {
  const isDetail = details
    .filter((detail) => detail.measureId === measure.id)
    .map((detail) => `when '${detail.id}' then coalesce(${detail.sql}, false)`)
    .join(" ")
  return {
    sql: `
with later as (
  select s.patient_id, s.${measure.column} as standing, s.${measure.column}_reasons as reasons
  from patient_standings as s
  where s.as_of = cast($as_of as date)
),
earlier as (
  select s.patient_id, s.${measure.column} as standing
  from patient_standings as s
  where s.as_of = cast($earlier_as_of as date)
),${newsDaySteps},
known as (
  select coalesce(later.patient_id, earlier.patient_id) as patient_id, later.standing, later.reasons, earlier.standing as earlier
  from later
  full join earlier on earlier.patient_id = later.patient_id
),
anew as (
  select s.patient_id, s.as_of, s.standing_today, s.is_late
  from standings_since_closing as s
  where s.measure_id = '${measure.id}'
),
placed as (
  select
    k.patient_id, k.standing, k.earlier, k.reasons,
    case when earlier_anew.as_of is null then k.earlier else earlier_anew.standing_today end as earlier_today,
    case when later_anew.as_of is null then k.standing else later_anew.standing_today end as standing_today,
    coalesce(earlier_anew.is_late, false) or coalesce(later_anew.is_late, false) as is_late
  from known as k
  left join anew as earlier_anew
    on earlier_anew.patient_id = k.patient_id and earlier_anew.as_of = cast($earlier_as_of as date)
  left join anew as later_anew on later_anew.patient_id = k.patient_id and later_anew.as_of = cast($as_of as date)
),
moved as (
  select
    p.patient_id, p.standing, p.earlier, p.earlier_today, p.standing_today, p.is_late,
    coalesce(p.reasons, cast([] as varchar[])) as reasons,
    ${isCountedSql("p.standing", measure.direction)} as is_counted,
    ${isCountedSql("p.earlier", measure.direction)} as was_counted,
    ${isCountedSql("p.standing_today", measure.direction)} as is_counted_today,
    ${isCountedSql("p.earlier_today", measure.direction)} as was_counted_today,
    ${isNewsSql(measure.news.gained)} as is_gain_news,
    ${isNewsSql(measure.news.lost)} as is_loss_news
  from placed as p
  left join news_days as days on days.patient_id = p.patient_id
),
changed as (
  select m.*, ${changeSql} as change, ${changeTodaySql} as change_today from moved as m
),
${decisionInForce(topicOf(measure) ?? "none")},
named as (
  select m.*, coalesce(${sinceClosingSql}, ${causeSql}) as cause from changed as m
)
select
  ${listTotal},
  p.patient_id, p.public_id, p.given_name, p.family_name, p.age_years, p.sex, p.site, p.clinician_name,
  named.standing, named.earlier, named.change, named.cause, named.reasons, p.panel_reason,
  p.systolic, p.diastolic, p.systolic_limit, p.diastolic_limit, p.bp_source, p.bp_on, p.bp_readings,
  p.counted_day, p.counted_lowest_systolic, p.counted_lowest_diastolic,
  p.classes, p.newest_class_on,
  p.ras_history, p.ras_stopped_drug, p.ras_stopped_on, p.ras_stop_reason,
  p.egfr, p.egfr_on, p.acr, p.acr_comparator, p.acr_on, p.a, p.urine_on, p.urine_last_on,
  p.potassium, p.potassium_comparator, p.potassium_on,
  p.quarter_ago_systolic, p.quarter_ago_diastolic, p.quarter_ago_bp_on, p.plan_on, p.ras_start_checked_days,
  p.kinds, p.home_average_on, p.egfr_tested_on, p.acr_last_on, p.risk_cell, p.tests_due,
  cast(coalesce(p.egfr_days_in_year, 0) as integer) as egfr_days_in_year,
  p.slope, p.slope_standard_error, p.slope_points, p.failure_risk_2_years, p.failure_risk_5_years,
  p.sodium_mg, p.sodium_in_year_mg, p.sodium_in_year_series, p.sodium_in_year_on, p.dietitian_seen_on,
  p.next_visit_on,
  case when named.standing = 'exception' then decided.kind end as decided,
  case when named.standing = 'exception' then decided.holds_until end as decided_until
from named
join patient_month as p on p.patient_id = named.patient_id and p.as_of = cast($as_of as date)
join person_groups as g on g.patient_id = named.patient_id
left join decided on decided.patient_id = named.patient_id
where (cast($standing as varchar) is null
    or (cast($standing as varchar) = 'counted' and named.is_counted)
    or named.standing = cast($standing as varchar))
  and (cast($change as varchar) is null or named.change = cast($change as varchar))
  and (cast($cause as varchar) is null or named.cause = cast($cause as varchar))
  and (cast($reason as varchar) is null or named.reasons[1] = cast($reason as varchar))
  and (cast($clinician as varchar) is null or coalesce(p.clinician_id, '') = cast($clinician as varchar))
  and (cast($site as varchar) is null or coalesce(p.site, '') = cast($site as varchar))
  and (cast($sex as varchar) is null or coalesce(p.sex, '') = cast($sex as varchar))
  and (cast($age as varchar) is null or p.age_band = cast($age as varchar))
  and (cast($language as varchar) is null or coalesce(g.language, '') = cast($language as varchar))
  and (cast($race as varchar) is null or coalesce(g.race, '') = cast($race as varchar))
  and (cast($ethnicity as varchar) is null or coalesce(g.ethnicity, '') = cast($ethnicity as varchar))
  and (cast($detail as varchar) is null or case cast($detail as varchar) ${isDetail || "when '' then false"} else false end)
order by ${byName}
${listPage}`,
    Row: MeasurePerson,
  } as const
}
