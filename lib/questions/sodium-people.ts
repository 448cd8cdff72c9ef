import { z } from "zod"
import { byName, listColumns, listPage, listRow } from "./list-person"
import { sodiumSteps } from "./sodium-behind"
import { urineSteps } from "./sodium-urines"

const text = z.string().nullable()
const number = z.number().nullable()

export const SodiumPerson = z.object({
  ...listRow,
  classes: z.array(z.string()),
  /** The sodium that is listed, in mg a day: at the day, or for a change that of the month. */
  sodium_mg: number,
  series: text,
  methods: text,
  has_comparator: z.boolean(),
  change_mg: number,
  diet_last_on: text,
  dietitian_seen_on: text,
  risk_cell: text,
  g: text,
  a: text,
  next_visit_on: text,
  /** The 24-hour urine for which somebody is listed, with its creatinine; null of every other list. */
  urine_on: text,
  creatinine_mmol: number,
  creatinine_comparator: text,
  least_creatinine_mmol: number,
})

export type SodiumPerson = z.infer<typeof SodiumPerson>

/** Sodium from which somebody is listed as far above, in mg a day: above the highest of the limits drawn. */
export const farAboveMg = 2300

/** Conditions over a person of `counted`. */
export const isAbove = `p.standing <> 'unknown' and p.sodium_in_year_mg > ${farAboveMg}`
export const isUncontrolled = "p.at_target = false"

const personColumns = `
  ${listColumns},
  p.classes,`

const courseColumns = `
  p.diet_last_on, p.dietitian_seen_on, p.risk_cell, p.g, p.a, p.next_visit_on`

const noUrine = `
  cast(null as varchar) as urine_on, cast(null as double) as creatinine_mmol,
  cast(null as varchar) as creatinine_comparator, cast(null as double) as least_creatinine_mmol`

/** Who is far above the limits on a day, pressure above target first, then the highest sodium; `$detail` 'uncontrolled' lists those alone. */
export const sodiumAbove = {
  sql: `with ${sodiumSteps}
select ${personColumns}
  p.sodium_in_year_mg as sodium_mg, p.sodium_in_year_series as series, behind.methods,
  coalesce(behind.has_comparator, false) as has_comparator, cast(null as double) as change_mg, ${courseColumns}, ${noUrine}
from counted as p
left join behind on behind.patient_id = p.patient_id
where ${isAbove} and (cast($detail as varchar) is null or ${isUncontrolled})
order by case when ${isUncontrolled} then 0 else 1 end, p.sodium_in_year_mg desc, ${byName}
${listPage}`,
  Row: SodiumPerson,
} as const

/** Who was not assessed in the 12 months to a day: the next visit first, then the highest risk by eGFR and urine albumin. */
export const sodiumNotAssessed = {
  sql: `with ${sodiumSteps}
select ${personColumns}
  cast(null as double) as sodium_mg, cast(null as varchar) as series, cast(null as varchar) as methods,
  false as has_comparator, cast(null as double) as change_mg, ${courseColumns}, ${noUrine}
from counted as p
where p.standing = 'unknown'
order by
  p.next_visit_on nulls last,
  case p.risk_cell when 'very high' then 0 when 'high' then 1 when 'moderately increased' then 2 when 'low' then 3 else 4 end,
  ${byName}
${listPage}`,
  Row: SodiumPerson,
} as const

/**
 * Whose sodium of the month differs from their own 3 to 15 months before, by series; one row for a person and series. The largest fall
 * first, or with `$detail` 'rose' the largest rise; 'fell' and 'rose' list those alone.
 */
export const sodiumChanged = {
  sql: `
select ${personColumns}
  cast(d.mean_mg as double) as sodium_mg, d.series, cast(null as varchar) as methods,
  false as has_comparator, cast(d.change_mg as double) as change_mg, ${courseColumns}, ${noUrine}
from patient_diet_months as d
join patient_month as p on p.patient_id = d.patient_id and p.as_of = d.as_of
where d.as_of = cast($as_of as date) and d.change_mg is not null
  and case cast($detail as varchar) when 'fell' then d.change_mg < 0 when 'rose' then d.change_mg > 0 else true end
order by d.series, case when cast($detail as varchar) = 'rose' then -d.change_mg else d.change_mg end, ${byName}
${listPage}`,
  Row: SodiumPerson,
} as const

/** Of whom a 24-hour urine of the 12 months to a day is doubtful, with the latest such urine; the latest first. */
export const sodiumDoubtfulUrines = {
  sql: `with ${sodiumSteps}, ${urineSteps}
select ${personColumns}
  p.sodium_in_year_mg as sodium_mg, p.sodium_in_year_series as series, behind.methods,
  coalesce(behind.has_comparator, false) as has_comparator, cast(null as double) as change_mg, ${courseColumns},
  d.day as urine_on, d.creatinine_mmol, d.creatinine_comparator, d.least_creatinine_mmol
from doubtful as d
join counted as p on p.patient_id = d.patient_id
left join behind on behind.patient_id = d.patient_id
where d.place = 1
order by d.day desc, ${byName}
${listPage}`,
  Row: SodiumPerson,
} as const
