import { z } from "zod"
import { listedIds } from "./listed-ids"

const ListedPerson = z.object({
  public_id: z.string(),
  given_name: z.string().nullable(),
  family_name: z.string().nullable(),
  age_years: z.number().nullable(),
  site: z.string().nullable(),
  clinician_name: z.string().nullable(),
  language: z.string().nullable(),
  interpreter_needed: z.boolean(),
  preferred_contact: z.string().nullable(),
  phone: z.string().nullable(),
  email: z.string().nullable(),
  risk_cell: z.string().nullable(),
  failure_risk_2_years: z.number().nullable(),
})

export type ListedPerson = z.infer<typeof ListedPerson>

/**
 * Who stands on a page of the list of people to contact: how to reach them, and what of their kidneys decides their place.
 * Shape: parameters `$as_of` and `$listed_ids`, public ids with a comma between.
 */
export const listedPeople = {
  sql: `with ${listedIds}
select
  people.public_id,
  people.given_name,
  people.family_name,
  p.age_years,
  people.site,
  people.clinician_name,
  people.language,
  people.interpreter_needed,
  people.preferred_contact,
  people.phone,
  people.email,
  p.risk_cell,
  p.failure_risk_2_years
from people
join listed on listed.public_id = people.public_id
left join patient_month as p on p.patient_id = people.patient_id and p.as_of = cast($as_of as date)
order by people.public_id`,
  Row: ListedPerson,
} as const
