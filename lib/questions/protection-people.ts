import { z } from "zod"
import { byName, listColumns, listPage, listRow } from "./list-person"
import { mayBePregnant } from "./person-conditions"
import { protectionGroupIds, protectionGroupSql, protectionGroups } from "./protection-groups"

const text = z.string().nullable()
const number = z.number().nullable()

export const ProtectionPerson = z.object({
  group: z.enum(protectionGroupIds),
  ...listRow,
  sex: z.string(),
  /** The category of the latest urine result. */
  a: z.enum(["A2", "A3"]),
  egfr: number,
  egfr_on: text,
  slope: number,
  potassium: number,
  potassium_comparator: text,
  potassium_on: text,
  classes: z.array(z.string()),
  on_sglt2_inhibitor: z.boolean(),
  on_finerenone: z.boolean(),
  pregnancy: z.boolean(),
  /** Whether a pregnancy that is planned is asked about. */
  may_be_pregnant: z.boolean(),
  diabetes: z.boolean(),
  heart_failure: z.boolean(),
  atrial_fibrillation: z.boolean(),
  next_visit_on: text,
})

export type ProtectionPerson = z.infer<typeof ProtectionPerson>

/**
 * Who has albuminuria and no ACE inhibitor or ARB on a day. First those without a documented reason, then those raised once,
 * then those with a reason; in each A3 before A2, A2 with diabetes before A2 without, then the higher ACR. `$group_id` names a
 * group and `$clinician_id` whose patients are listed; null is all.
 */
export const protectionPeople = {
  sql: `with grouped as (
  select p.*, ${protectionGroupSql} as "group"
  from patient_month as p
  join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
  where p.as_of = cast($as_of as date)
    and (cast($clinician_id as varchar) is null or p.clinician_id = cast($clinician_id as varchar))
)
select
  ${listColumns},
  p."group", p.sex,
  p.a, p.egfr, p.egfr_on, p.slope, p.potassium, p.potassium_comparator, p.potassium_on,
  p.classes, p.on_sglt2_inhibitor, p.on_finerenone,
  p.pregnancy, ${mayBePregnant} as may_be_pregnant, p.diabetes, p.heart_failure, p.atrial_fibrillation, p.next_visit_on
from grouped as p
where p."group" is not null
  and (cast($group_id as varchar) is null or p."group" = cast($group_id as varchar))
order by
  case p."group" ${protectionGroups.map(({ id }) => `when '${id}' then ${placeOf(id)}`).join(" ")} end,
  p.a desc,
  p.a = 'A2' and p.diabetes desc,
  p.acr desc nulls last,
  p.urine_on desc,
  ${byName}
${listPage}`,
  Row: ProtectionPerson,
} as const

/** Never tried and stopped stand together: the urine, not the history, says who is more pressing. */
function placeOf(id: (typeof protectionGroupIds)[number]): number {
  if (id === "documented-reason") return 3
  return id === "raised-once" ? 2 : 1
}
