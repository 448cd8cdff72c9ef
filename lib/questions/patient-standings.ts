import { z } from "zod"
import { standings } from "../domain/standings"
import { measures } from "../measures/index"

export const PatientStanding = z.object({
  measure_id: z.string(),
  standing: z.enum(standings),
  reasons: z.array(z.string()),
})

export type PatientStanding = z.infer<typeof PatientStanding>

/** Where a person stands on every measure on one day; no row while they are not in the panel. */
export const patientStandings = {
  sql: `with person as materialized (
  select ${measures.map((measure) => `s.${measure.column}, s.${measure.column}_reasons`).join(", ")}
  from people
  join patient_standings as s on s.patient_id = people.patient_id and s.as_of = cast($as_of as date)
  where people.public_id = cast($public_id as varchar)
)
${measures
  .map(
    (measure) =>
      `select '${measure.id}' as measure_id, ${measure.column} as standing, ${measure.column}_reasons as reasons from person`,
  )
  .join("\nunion all\n")}
order by measure_id`,
  Row: PatientStanding,
} as const
