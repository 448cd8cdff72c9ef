import { z } from "zod"
import { ownPeopleSteps } from "./own-people"

export const ClinicianPanel = z.object({
  clinician_id: z.string(),
  name: z.string().nullable(),
  /** Whether the people are theirs by the record, and not by their visits. */
  is_of_record: z.boolean(),
  people: z.number().int(),
})

export type ClinicianPanel = z.infer<typeof ClinicianPanel>

/** Everybody on the staff list with people of their own in the panel on a day, by name; `$clinician` as null is all of them. */
export const clinicianPanels = {
  sql: `with${ownPeopleSteps}
select
  c.staff_id as clinician_id,
  c.name,
  coalesce(c.role <> 'dietitian', true) as is_of_record,
  cast(count(*) as integer) as people
from belonging as b
join own on own.patient_id = b.patient_id
join clinicians as c on c.staff_id = b.clinician_id
join patient_month as p on p.patient_id = b.patient_id and p.as_of = cast($as_of as date)
where p.in_panel
group by c.staff_id, c.name, c.role
order by lower(c.name), c.staff_id`,
  Row: ClinicianPanel,
} as const
