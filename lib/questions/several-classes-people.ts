import { z } from "zod"
import { byName, listColumns, listPage, listRow } from "./list-person"
import { severalClassesFindings } from "./several-classes-findings"

const text = z.string().nullable()
const number = z.number().nullable()

export const SeveralClassesPerson = z.object({
  ...listRow,
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
  ${listColumns},
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
  ${byName}
${listPage}`,
  Row: SeveralClassesPerson,
} as const
