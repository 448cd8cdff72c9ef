import { z } from "zod"
import { severalClassesFindings } from "./several-classes-findings"

export const SeveralClassesCounts = z.object({
  people: z.number().int(),
  severe: z.number().int(),
  found: z.array(z.number().int()).length(severalClassesFindings.length),
})

export type SeveralClassesCounts = z.infer<typeof SeveralClassesCounts>

/** How many are above target on several classes on a day, how many of them severely, and how many with each finding, in their order. */
export const severalClassesCounts = {
  sql: `select
  cast(count(*) as integer) as people,
  cast(count(*) filter (where p.category = 'severe') as integer) as severe,
  [
    ${severalClassesFindings.map(({ sql }) => `cast(count(*) filter (where ${sql}) as integer)`).join(",\n    ")}
  ] as found
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date) and s.uncontrolled_on_several_classes = 'met'`,
  Row: SeveralClassesCounts,
} as const
