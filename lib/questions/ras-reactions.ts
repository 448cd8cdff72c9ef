import { z } from "zod"
import { listedIds } from "./listed-ids"

export const RasReaction = z.object({
  public_id: z.string(),
  /** As recorded. */
  substance: z.string(),
  reaction: z.string().nullable(),
  /** Null where the record has no day. */
  recorded_on: z.string().nullable(),
})

export type RasReaction = z.infer<typeof RasReaction>

/** The allergy and intolerance records of some people that bear on ACE inhibitors and ARBs, as they hold on a day. */
export const rasReactions = {
  sql: `with ${listedIds}
select distinct people.public_id, r.substance, r.reaction, r.recorded_on
from ras_intolerance as r
join people on people.patient_id = r.patient_id
join listed on listed.public_id = people.public_id
where r.starts_on <= cast($as_of as date)
order by people.public_id, r.recorded_on, r.substance, r.reaction`,
  Row: RasReaction,
} as const
