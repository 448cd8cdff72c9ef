import { z } from "zod"
import { standings } from "../domain/standings"
import { measures } from "../measures/index"

export const MonthStanding = z.object({
  measure_id: z.string(),
  patient_id: z.string(),
  public_id: z.string(),
  standing: z.enum(standings),
  reasons: z.array(z.string()),
})

export type MonthStanding = z.infer<typeof MonthStanding>

const standingsOfAll = measures
  .map(
    (measure) => `select '${measure.id}' as measure_id, s.patient_id, s.${measure.column} as standing,
    s.${measure.column}_reasons as reasons
  from patient_standings as s
  where s.as_of = cast($as_of as date) and s.${measure.column} <> 'outside'`,
  )
  .join("\n  union all\n  ")

/** Who stands where on every measure on a day, those outside left out. */
export const monthStandings = {
  sql: `
with standing as (
  ${standingsOfAll}
)
select standing.measure_id, standing.patient_id, p.public_id, standing.standing, standing.reasons
from standing
join patient_month as p on p.patient_id = standing.patient_id and p.as_of = cast($as_of as date)
order by standing.measure_id, lower(p.family_name), lower(p.given_name), standing.patient_id`,
  Row: MonthStanding,
} as const
