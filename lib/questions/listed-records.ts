import { z } from "zod"
import { listedIds } from "./listed-ids"

export const ListedRecord = z.object({ public_id: z.string(), record_id: z.string() })

export type ListedRecord = z.infer<typeof ListedRecord>

/** The records of those listed, those merged into theirs among them: what the record store knows of a person is under any of them. */
export const listedRecords = {
  sql: `with ${listedIds}
select people.public_id, i.record_id
from identities as i
join people on people.patient_id = i.patient_id
join listed on listed.public_id = people.public_id
order by people.public_id, i.record_id`,
  Row: ListedRecord,
} as const
