import { z } from "zod"

export const PatientSurvivor = z.object({ public_id: z.string() })

export type PatientSurvivor = z.infer<typeof PatientSurvivor>

/** The person to whom a merged record's facts belong; no row for a record that is not merged. */
export const patientSurvivor = {
  sql: `select people.public_id
from identities
join people on people.patient_id = identities.patient_id
where identities.record_id = cast($record_id as varchar) and identities.is_merged`,
  Row: PatientSurvivor,
} as const
