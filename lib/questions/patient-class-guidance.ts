import { z } from "zod"
import { classGuidanceRules } from "./class-guidance-rules"

export const PatientClassGuidance = z.object({
  place: z.number().int(),
  /** Why it concerns the person: one of the rules. */
  rule: z.string(),
  guidance: z.enum(["prefers", "considers", "avoids", "never stopped abruptly"]),
  statement: z.string(),
  /** The drugs of the kinds that the statement speaks of, of those active on the day. */
  active: z.array(z.string()),
  source: z.string(),
  /** What of the source was read: "read", "secondary", "from memory". */
  mark: z.string(),
})

export type PatientClassGuidance = z.infer<typeof PatientClassGuidance>

/** What published guidance says of drug classes given the conditions of one person on a day, in the order of the list. */
export const patientClassGuidance = {
  sql: `with person as (
  select * from patient_month as p
  where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)
),
active as (
  select distinct i.kind, i.ingredient
  from person as p
  join order_spans as spans
    on spans.patient_id = p.patient_id
    and spans.started_on <= p.as_of and (spans.ends_on is null or spans.ends_on > p.as_of)
  join order_ingredients as i on i.order_key = spans.order_key
)
select cast(c.place as integer) as place, c.applies_when as rule, c.guidance, c.statement,
  coalesce(
    (select list(distinct a.ingredient order by a.ingredient) from active as a
      where list_contains(string_split(c.kinds, ';'), a.kind)),
    cast([] as varchar[])
  ) as active,
  c.source, c.mark
from person as p
join class_guidance as c
  on case c.applies_when
    ${classGuidanceRules.map(({ when, sql }) => `when '${when}' then coalesce((${sql}), false)`).join("\n    ")}
    else false
  end
order by cast(c.place as integer)`,
  Row: PatientClassGuidance,
} as const
