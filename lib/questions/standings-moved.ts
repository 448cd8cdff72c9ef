import { z } from "zod"
import { measures } from "../measures/index"

export const StandingsMoved = z.object({ measure_id: z.string(), people: z.number().int() })

export type StandingsMoved = z.infer<typeof StandingsMoved>

/**
 * How many people would stand elsewhere on one day under the settings that are tried, by measure; asked where `whatIf` has
 * put the tried standings in front of those of `snapshot`. Whoever is not in the panel is outside of every measure.
 */
export const standingsMoved = {
  sql: `
with tried as (
  select s.patient_id, ${columns()} from patient_standings as s where s.as_of = cast($as_of as date)
),
today as (
  select s.patient_id, ${columns()} from snapshot.main.patient_standings as s where s.as_of = cast($as_of as date)
),
moved as (
  select
    ${measures.map(({ column }) => movedOf(column)).join(",\n    ")}
  from tried
  full outer join today on today.patient_id = tried.patient_id
)
${measures.map(({ id, column }) => `select '${id}' as measure_id, moved.${column} as people from moved`).join("\nunion all\n")}`,
  Row: StandingsMoved,
} as const

function columns(): string {
  return measures.map(({ column }) => `s.${column}`).join(", ")
}

function movedOf(column: string): string {
  return `cast(count(*) filter (
      where coalesce(tried.${column}, 'outside') <> coalesce(today.${column}, 'outside')
    ) as integer) as ${column}`
}
