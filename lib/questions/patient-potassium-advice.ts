import { z } from "zod"
import { potassiumAdvice } from "./potassium-advice"

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
  sql: `with highs as (
  select r.patient_id, max(r.day) as potassium_high_on
  from potassium_results as r
  where not r.is_haemolysed and exceeds(r.potassium, r.comparator, 5.5) and r.day <= cast($as_of as date)
  group by r.patient_id
),
person as (
  select
    m.has_potassium_in_year, m.potassium, m.potassium_comparator, m.is_potassium_high, m.g, m.on_dialysis,
    highs.patient_id is not null as was_potassium_high,
    concat_ws('; ',
      case when m.on_any_ras_blocker then 'a RAS blocker is active' end,
      case when m.on_steroidal_mra or m.on_finerenone then 'a mineralocorticoid antagonist is active' end,
      case when array_contains(m.kinds, 'potassium_sparing') then 'a diuretic that spares potassium is active' end,
      case when m.on_dialysis then 'on dialysis' end,
      case when m.egfr < 30 then 'eGFR below 30' end,
      case when m.egfr is null then 'eGFR not known' end,
      case
        when not m.has_potassium_in_year then 'potassium not known'
        when reaches(m.potassium, m.potassium_comparator, 5.0) then 'potassium of 5.0 mmol/L or more'
      end
    ) as against_substitute
  from patient_month as m
  left join highs on highs.patient_id = m.patient_id
  where m.public_id = cast($public_id as varchar) and m.as_of = cast($as_of as date)
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
