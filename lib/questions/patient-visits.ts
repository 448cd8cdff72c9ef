import { z } from "zod"

export const PatientVisit = z.object({
  started_on: z.string(),
  ended_on: z.string().nullable(),
  kind: z.enum(["office", "telehealth", "emergency", "inpatient", "dialysis"]),
  sources: z.array(z.string()),
})

export type PatientVisit = z.infer<typeof PatientVisit>

/** The visits of a person over the 36 months to a day. */
export const patientVisits = {
  sql: `select v.started_on, v.ended_on, v.kind, ['visits:' || v.import_id || ':' || v.line] as sources
from people
join as_of_windows as w on w.as_of = cast($as_of as date)
join visits_raw as v
  on v.patient_id = people.patient_id
  and coalesce(v.ended_on, v.started_on) > w.confirmation_after and v.started_on <= w.as_of
where people.public_id = cast($public_id as varchar)
order by v.started_on, v.kind, v.import_id, v.line`,
  Row: PatientVisit,
} as const
