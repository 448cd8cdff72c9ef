import { z } from "zod"
import { listedIds } from "./listed-ids"

export const UrinePoint = z.object({
  public_id: z.string(),
  test: z.enum(["uacr", "upcr"]),
  day: z.string(),
  /** mg/g. */
  number: z.number(),
  comparator: z.string().nullable(),
  /** The category, cut in the unit the laboratory reported. */
  a: z.enum(["A1", "A2", "A3"]),
})

export type UrinePoint = z.infer<typeof UrinePoint>

/** The last three urine albumin or protein results of some people up to a day, latest first. */
export const urineHistory = {
  sql: `with ${listedIds},
ordered as (
  select
    people.public_id, u.test, u.day, u.value_mg_g as number, u.comparator, u.a,
    row_number() over (
      partition by u.patient_id
      order by u.day desc, u.test, u.collected_epoch desc, u.value_mg_g desc, u.import_id, u.line
    ) as place
  from urine_results as u
  join people on people.patient_id = u.patient_id
  join listed on listed.public_id = people.public_id
  where u.day <= cast($as_of as date)
)
select public_id, test, day, number, comparator, a
from ordered
where place <= 3
order by public_id, place`,
  Row: UrinePoint,
} as const
