import { z } from "zod"

const number = z.number().nullable()

export const PatientSodium = z.object({
  sodium_mg: number,
  sodium_series: z.string().nullable(),
  sodium_on: z.string().nullable(),
  sodium_records: z.number().int().nullable(),
  limit_mg: z.number(),
  /** How far the sodium lies above the limit, in mg a day; null where it does not, or is not known. */
  above_mg: number,
  /** The mean fall in systolic pressure that trials found for so much less, lower and upper end, in mmHg. */
  fall_least: number,
  fall_most: number,
})

export type PatientSodium = z.infer<typeof PatientSodium>

/** Of whose pressure nothing is said: a condition over a row `p` of `patient_month`. */
export const isPressureLeftAlone = "p.is_pressure_low or p.pregnancy or p.palliative"

/**
 * The sodium of a person that is held against the limit on a day, and what trials found on average for getting there. Nothing
 * is said of the pressure of whoever has a low one, is pregnant or in palliative care.
 */
export const patientSodium = {
  sql: `with person as (
  select
    p.sodium_in_year_mg as sodium_mg, p.sodium_in_year_series as sodium_series, p.sodium_in_year_on as sodium_on,
    cast(p.sodium_in_year_records as integer) as sodium_records,
    cast($sodium_limit_mg as double) as limit_mg,
    case
      when p.sodium_in_year_mg > cast($sodium_limit_mg as double)
        then p.sodium_in_year_mg - cast($sodium_limit_mg as double)
    end as above_mg,
    ${isPressureLeftAlone} as is_left_alone
  from patient_month as p
  where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)
)
select
  p.sodium_mg, p.sodium_series, p.sodium_on, p.sodium_records, p.limit_mg, p.above_mg,
  case when not p.is_left_alone then systolic_fall_least(p.above_mg) end as fall_least,
  case when not p.is_left_alone then systolic_fall_most(p.above_mg) end as fall_most
from person as p`,
  Row: PatientSodium,
} as const
