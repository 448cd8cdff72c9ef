import { z } from "zod"

/** The drug texts that stand in the orders of one person and of nobody else. */
export const drugTextsOfOne = {
  sql: `select t.normalised
from drug_texts as t
join orders as o on o.drug = t.text
group by t.normalised
having bool_and(o.patient_id in (select i.patient_id from identities as i where i.record_id = cast($record_id as varchar)))
order by t.normalised`,
  Row: z.object({ normalised: z.string() }),
} as const
