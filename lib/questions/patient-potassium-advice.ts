import { z } from "zod"
import { againstSaltSubstitute, highPotassiums, potassiumAdvice } from "./potassium-advice"

export const PatientPotassiumAdvice = z.object({
  advice: z.string(),
  words: z.string(),
  /** What in this person's record speaks for it, where the statement has several reasons. */
  because: z.string().nullable(),
  source: z.string(),
})

export type PatientPotassiumAdvice = z.infer<typeof PatientPotassiumAdvice>

/** What published guidance says of potassium in the diet of a person on a day, by potassium, stage and drugs; most pressing first. */
export const patientPotassiumAdvice = {
  sql: `with ${highPotassiums},
person as (
  select
    p.has_potassium_in_year, p.potassium, p.potassium_comparator, p.is_potassium_high, p.g, p.on_dialysis,
    highs.patient_id is not null as was_potassium_high,
    concat_ws('; ',
      ${againstSaltSubstitute.map(({ words, sql }) => `case when ${sql} then '${words}' end`).join(",\n      ")}
    ) as against_substitute
  from patient_month as p
  left join high_potassiums as highs on highs.patient_id = p.patient_id and highs.place = 1
  where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)
),
holds as (
  ${potassiumAdvice.map(({ advice, sql }, place) => `select ${place} as place, '${advice}' as advice, p.against_substitute from person as p where ${sql}`).join("\n  union all\n  ")}
)
select
  h.advice, a.words, case when h.advice = 'salt-substitute' then h.against_substitute end as because, a.source
from holds as h
join potassium_advice as a on a.advice = h.advice
order by h.place`,
  Row: PatientPotassiumAdvice,
} as const
