import { z } from "zod"

const number = z.number().nullable()

export const DietPoint = z.object({
  day: z.string(),
  series: z.string(),
  method: z.string(),
  sodium_mg: z.number(),
  potassium_mg: z.number().nullable(),
  comparator: z.string().nullable(),
  /** What the creatinine says of a 24-hour urine; null of any other record. */
  completeness: z.enum(["complete", "doubtful", "cannot be judged"]).nullable(),
  /** What is missing where it cannot be judged: no creatinine, no sex, or a creatinine that is only a bound. */
  missing: z.enum(["creatinine", "sex", "number"]).nullable(),
  creatinine_mmol: number,
  creatinine_comparator: z.string().nullable(),
  least_creatinine_mmol: number,
  sources: z.array(z.string()),
})

export type DietPoint = z.infer<typeof DietPoint>

/** The diet records and 24-hour urine sodiums of a person over the 36 months to a day. */
export const patientDiet = {
  sql: `select
  r.day, r.series, r.method, cast(r.sodium_mg as double) as sodium_mg, cast(r.potassium_mg as double) as potassium_mg,
  r.comparator, u.completeness, u.missing, u.creatinine_mmol, u.creatinine_comparator, u.least_creatinine_mmol,
  case
    when u.creatinine_line is null then [r.file || ':' || r.import_id || ':' || r.line]
    else [
      r.file || ':' || r.import_id || ':' || r.line,
      r.file || ':' || u.creatinine_import_id || ':' || u.creatinine_line
    ]
  end as sources
from people
join as_of_windows as w on w.as_of = cast($as_of as date)
join sodium_records as r
  on r.patient_id = people.patient_id and r.day > w.confirmation_after and r.day <= w.as_of
left join urine_collections as u
  on r.file = 'labs' and u.import_id = r.import_id and u.line = r.line
where people.public_id = cast($public_id as varchar)
order by r.day, r.series, r.sodium_mg, r.import_id, r.line`,
  Row: DietPoint,
} as const
