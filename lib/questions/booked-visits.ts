import { z } from "zod"

export const BookedVisit = z.object({
  patient_id: z.string(),
  public_id: z.string(),
  given_name: z.string().nullable(),
  family_name: z.string().nullable(),
  birth_date: z.string().nullable(),
  site: z.string().nullable(),
  language: z.string().nullable(),
  interpreter_needed: z.boolean(),
  /** Why nobody may contact the person, null where somebody may; the visit stands all the same. */
  kept_from: z.enum(["asked not to be contacted", "left", "died"]).nullable(),
  /** Whom the visit is booked with, which may be nobody by name. */
  clinician_id: z.string().nullable(),
  clinician_name: z.string().nullable(),
  /** Who usually sees the person. */
  own_clinician_name: z.string().nullable(),
  /** The time on the clinic's clock, null where the extract has the day alone. */
  starts_at: z.string().nullable(),
  kind: z.string().nullable(),
  status: z.enum(["booked", "kept", "missed"]),
})

export type BookedVisit = z.infer<typeof BookedVisit>

/**
 * The visits in the book of a day, cancelled ones left out, with what a person who is asked for by name is known by.
 * Shape: parameters `$on`, the day, and `$today`, the calendar's (who died or left since is told).
 */
export const bookedVisits = {
  sql: `select
  people.patient_id,
  people.public_id,
  people.given_name,
  people.family_name,
  people.birth_date,
  people.site,
  people.language,
  people.interpreter_needed,
  case
    when people.died_on <= cast($today as date) then 'died'
    when people.left_on <= cast($today as date) then 'left'
    when people.do_not_contact then 'asked not to be contacted'
  end as kept_from,
  a.clinician_id,
  clinician.name as clinician_name,
  people.clinician_name as own_clinician_name,
  case when not a.is_date_only then strftime(a.starts_at, '%H:%M') end as starts_at,
  a.kind,
  a.status
from appointments_raw as a
join people on people.patient_id = a.patient_id
left join clinicians as clinician on clinician.staff_id = a.clinician_id
where cast(a.starts_at as date) = cast($on as date) and a.status <> 'cancelled'
order by a.starts_at, people.family_name, people.given_name, people.public_id, a.appointment_id`,
  Row: BookedVisit,
} as const
