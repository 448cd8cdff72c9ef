import { z } from "zod"
import { measures } from "../measures/index"
import type { Condition, Measure } from "../measures/types"

export type ConditionPart = "population" | "excluded" | "unknown" | "met" | "exception"

/** One condition of a measure, in the order in which `patientConditions` answers them. */
export type AskedCondition = {
  readonly measure: Measure
  readonly part: ConditionPart
  readonly condition: Condition
}

export const askedConditions: readonly AskedCondition[] = measures.flatMap((measure) => [
  ...of(measure, "population", measure.population),
  ...of(measure, "excluded", measure.excluded),
  ...of(measure, "unknown", measure.unknown),
  ...of(measure, "met", [measure.met]),
  ...of(measure, "exception", measure.exception),
])

export const HeldConditions = z.object({
  holds: z.array(z.boolean()).length(askedConditions.length),
})

/** Whether each condition of every measure holds for one person on one day; no row before they were registered. */
export const patientConditions = {
  sql: `select [
  ${askedConditions.map(({ condition }) => `coalesce((${condition.sql}), false)`).join(",\n  ")}
] as holds
from patient_month as p
where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)`,
  Row: HeldConditions,
} as const

function of(measure: Measure, part: ConditionPart, conditions: readonly Condition[]): AskedCondition[] {
  return conditions.map((condition) => ({ measure, part, condition }))
}
