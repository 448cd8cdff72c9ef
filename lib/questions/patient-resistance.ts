import { z } from "zod"
import { resistanceDetails } from "./resistance-details"

export const PatientResistance = z.object({ holds: z.array(z.boolean()).length(resistanceDetails.length) })

export type PatientResistance = z.infer<typeof PatientResistance>

/**
 * For a person above target on several classes, which parts of the breakdown hold, in their order; no row for anyone else.
 * A list of one row, which only this engine and its kin can give.
 */
export const patientResistance = {
  sql: `select [
  ${resistanceDetails.map((detail) => `coalesce((${detail.sql}), false)`).join(",\n  ")}
] as holds
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)
  and s.uncontrolled_on_several_classes = 'met'`,
  Row: PatientResistance,
} as const
