import { z } from "zod"
import { severalClassesFindings } from "./several-classes-findings"

const text = z.string().nullable()
const number = z.number().nullable()

export const SeveralClassesPerson = z.object({
  total: z.number().int(),
  public_id: z.string(),
  given_name: text,
  family_name: text,
  age_years: z.number().int(),
  site: text,
  clinician_name: text,
  systolic: z.number(),
  diastolic: z.number(),
  systolic_limit: z.number(),
  diastolic_limit: z.number(),
  bp_source: z.enum(["office", "home", "ambulatory"]),
  bp_on: z.string(),
  is_severe: z.boolean(),
  classes: z.array(z.string()),
  supply_gap_days: z.number().int().nullable(),
  /** Which findings hold, in their order. */
  holds: z.array(z.boolean()).length(severalClassesFindings.length),
  potassium: number,
  potassium_comparator: text,
  potassium_on: text,
  egfr: number,
  egfr_on: text,
  next_visit_on: text,
})

export type SeveralClassesPerson = z.infer<typeof SeveralClassesPerson>

/**
 * Who is above target on several classes on a day, severe pressure first, then the furthest above the target of where it was
 * taken, systolic or diastolic, whichever is further. `$detail` names a finding; null is everyone.
 */
export const severalClassesPeople = {
  sql: `select
  cast(count(*) over () as integer) as total,
  p.public_id, p.given_name, p.family_name, p.age_years, p.site, p.clinician_name,
  p.systolic, p.diastolic, p.systolic_limit, p.diastolic_limit, p.bp_source, p.bp_on,
  coalesce(p.category = 'severe', false) as is_severe,
  p.classes,
  cast(p.supply_gap_days as integer) as supply_gap_days,
  [
    ${severalClassesFindings.map(({ sql }) => `coalesce((${sql}), false)`).join(",\n    ")}
  ] as holds,
  p.potassium, p.potassium_comparator, p.potassium_on, p.egfr, p.egfr_on, p.next_visit_on
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date) and s.uncontrolled_on_several_classes = 'met'
  and (cast($detail as varchar) is null
    or case cast($detail as varchar)
      ${severalClassesFindings.map(({ id, sql }) => `when '${id}' then coalesce((${sql}), false)`).join("\n      ")}
      else false
    end)
order by
  is_severe desc,
  greatest(p.systolic - p.systolic_limit, p.diastolic - p.diastolic_limit) desc,
  lower(p.family_name), lower(p.given_name), p.patient_id
limit cast($limit as integer) offset cast($offset as integer)`,
  Row: SeveralClassesPerson,
} as const
