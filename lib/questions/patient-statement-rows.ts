import { z } from "zod"
import type { FactKind } from "../measures/fact-kind"
import { reasons } from "../outreach/reasons"
import { classGuidanceRules } from "./class-guidance-rules"
import { factsBehind } from "./facts-behind"
import { againstSaltSubstitute, potassiumAdvice } from "./potassium-advice"
import { resistanceDetails } from "./resistance-details"

export const PatientStatementRows = z.object({
  about: z.enum(["reason", "guidance", "potassium", "resistance"]),
  /** The reason, the rule of guidance, the advice or the part of the breakdown. */
  id: z.string(),
  /** Of a reason to contact, the day of the fact that it speaks of. */
  fact_on: z.string().nullable(),
  sources: z.array(z.string()),
})

export type PatientStatementRows = z.infer<typeof PatientStatementRows>

/**
 * What statements of the patient screen rest on, for one person on one day: of each statement, held or not, the rows that show
 * its day, value or condition. Parameters `$public_id`, `$as_of` and `$home_window_days`.
 */
export const patientStatementRows = {
  sql: `with person as materialized (
  select p.*, w.quarter_after, w.ras_starts_after, w.ras_starts_through
  from patient_month as p
  join as_of_windows as w on w.as_of = p.as_of
  where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)
),
recent as materialized (
  select r.* from recent_facts_at as r
  join person on person.patient_id = r.patient_id and person.as_of = r.as_of
),
${factsBehind},
statements(about, id, kind, ground) as (
  values ${statements().flatMap(valuesOf).join(",\n    ")}
),
stated as (
  select
    s.about,
    s.id,
    s.kind,
    case s.id ${reasons.map(({ id, factOn }) => `when '${id}' then cast(${factOn} as date)`).join("\n      ")} end as fact_on
  from statements as s
  cross join person as p
  left join recent as r on true
  where case s.ground ${againstSaltSubstitute.map(({ words, sql }) => `when '${words}' then ${sql}`).join("\n    ")} else true end
)
select s.about, s.id, s.fact_on, list(distinct behind.source order by behind.source) as sources
from stated as s
join behind on behind.kind = s.kind
group by s.about, s.id, s.fact_on
order by s.about, s.id`,
  Row: PatientStatementRows,
} as const

type Statement = {
  about: PatientStatementRows["about"]
  id: string
  restsOn: readonly FactKind[]
  /** Which of several grounds of one statement it is, empty where there is one; it has to hold. */
  ground?: string
}

function statements(): Statement[] {
  return [
    ...reasons.map(({ id, restsOn }) => ({ about: "reason" as const, id, restsOn })),
    ...classGuidanceRules.map(({ when, restsOn }) => ({ about: "guidance" as const, id: when, restsOn })),
    ...potassiumAdvice.map(({ advice, restsOn }) => ({ about: "potassium" as const, id: advice, restsOn })),
    ...againstSaltSubstitute.map(({ words, restsOn }) => ({
      ...{ about: "potassium" as const, id: "salt-substitute" },
      ...{ restsOn, ground: words },
    })),
    ...resistanceDetails.map(({ id, restsOn }) => ({ about: "resistance" as const, id, restsOn })),
  ]
}

function valuesOf({ about, id, restsOn, ground = "" }: Statement): string[] {
  return restsOn.map((kind) => `('${about}', '${id}', '${kind}', '${ground}')`)
}
