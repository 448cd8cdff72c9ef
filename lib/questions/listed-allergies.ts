import { z } from "zod"
import { listedIds } from "./listed-ids"

export const ListedAllergy = z.object({
  public_id: z.string(),
  /** As recorded. */
  substance: z.string(),
  reaction: z.string().nullable(),
  /** The earliest day of the record; null where it has none. */
  recorded_on: z.string().nullable(),
  /** Whether it bears on ACE inhibitors or ARBs. */
  concerns_ras: z.boolean(),
  sources: z.array(z.string()),
})

export type ListedAllergy = z.infer<typeof ListedAllergy>

/** The allergy and intolerance records of some people as they hold on a day, those that bear on ACE inhibitors and ARBs first. */
export const listedAllergies = {
  sql: `with ${listedIds},
ras as (select distinct import_id, line from ras_intolerance)
select people.public_id, f.substance, f.reaction, min(f.recorded_on) as recorded_on,
  bool_or(ras.line is not null) as concerns_ras,
  list('allergies:' || f.import_id || ':' || f.line order by f.import_id, f.line) as sources
from allergy_records as f
join people on people.patient_id = f.patient_id
join listed on listed.public_id = people.public_id
left join ras on ras.import_id = f.import_id and ras.line = f.line
where f.starts_on <= cast($as_of as date)
group by people.public_id, f.substance, f.reaction
order by people.public_id, concerns_ras desc, min(f.recorded_on), f.substance, f.reaction`,
  Row: ListedAllergy,
} as const
