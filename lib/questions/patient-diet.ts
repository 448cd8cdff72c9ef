import { z } from "zod"

export const DietPoint = z.object({
  day: z.string(),
  series: z.string(),
  method: z.string(),
  sodium_mg: z.number(),
  potassium_mg: z.number().nullable(),
  comparator: z.string().nullable(),
  sources: z.array(z.string()),
})

export type DietPoint = z.infer<typeof DietPoint>

/** The diet records and 24-hour urine sodiums of a person over the 36 months to a day. */
export const patientDiet = {
  sql: `select
  r.day, r.series, r.method, cast(r.sodium_mg as double) as sodium_mg, cast(r.potassium_mg as double) as potassium_mg,
  r.comparator, [r.file || ':' || r.import_id || ':' || r.line] as sources
from people
join as_of_windows as w on w.as_of = cast($as_of as date)
join sodium_records as r
  on r.patient_id = people.patient_id and r.day > w.confirmation_after and r.day <= w.as_of
where people.public_id = cast($public_id as varchar)
order by r.day, r.series, r.sodium_mg, r.import_id, r.line`,
  Row: DietPoint,
} as const
