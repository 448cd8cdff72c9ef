import { z } from "zod"

const text = z.string().nullable()

const PersonToContact = z.object({
  public_id: z.string(),
  given_name: text,
  family_name: text,
  age_years: z.number().nullable(),
  site: text,
  clinician_name: text,
  language: text,
  interpreter_needed: z.boolean(),
  preferred_contact: text,
  phone: text,
  email: text,
})

export type PersonToContact = z.infer<typeof PersonToContact>

/** One person as whoever contacts them needs it. Parameters `$public_id` and `$as_of`. */
export const personToContact = {
  sql: `select
  people.public_id, people.given_name, people.family_name, p.age_years, people.site, people.clinician_name,
  people.language, people.interpreter_needed, people.preferred_contact, people.phone, people.email
from people
left join patient_month as p on p.patient_id = people.patient_id and p.as_of = cast($as_of as date)
where people.public_id = cast($public_id as varchar)`,
  Row: PersonToContact,
} as const
