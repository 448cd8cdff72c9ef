import { z } from "zod"
import { measures } from "../measures/index"

export const StandingsMoved = z.object({ measure_id: z.string(), people: z.number().int() })

export type StandingsMoved = z.infer<typeof StandingsMoved>

/**
 * How many people would stand elsewhere on one day under the settings that are tried, by measure; asked where `whatIf` has
 * put the tried standings in front of those of `snapshot`. Whoever is not in the panel is outside of every measure.
 */
export const standingsMoved = {
  sql: measures
    .map(
      ({ id, column }) => `select
  '${id}' as measure_id,
  cast(count(*) filter (
    where coalesce(tried.${column}, 'outside') <> coalesce(today.${column}, 'outside')
  ) as integer) as people
from (select s.patient_id, s.${column} from patient_standings as s where s.as_of = cast($as_of as date)) as tried
full outer join (
  select s.patient_id, s.${column} from snapshot.main.patient_standings as s where s.as_of = cast($as_of as date)
) as today on today.patient_id = tried.patient_id`,
    )
    .join("\nunion all\n"),
  Row: StandingsMoved,
} as const
