import { z } from "zod"
import { listedIds } from "./listed-ids"
import { isPotassiumAboveFive, mayBePregnant } from "./person-conditions"

/** When a published statement concerns somebody who takes no ACE inhibitor or ARB: a condition over `patient_month`. */
type Applies = { readonly when: string; readonly sql: string }

export const rasConsiderationRules: readonly Applies[] = [
  { when: "a3", sql: "p.albuminuria = 'confirmed' and p.a = 'A3'" },
  { when: "a2-with-diabetes", sql: "p.albuminuria = 'confirmed' and p.a = 'A2' and p.diabetes" },
  { when: "a2-without-diabetes", sql: "p.albuminuria = 'confirmed' and p.a = 'A2' and not p.diabetes" },
  { when: "raised-once", sql: "p.albuminuria = 'raised once'" },
  { when: "cough", sql: "r.has_cough and not r.has_arb and not r.has_angioedema" },
  {
    when: "one-kind",
    sql: "r.has_ace_inhibitor <> r.has_arb and not r.has_angioedema and not (r.has_cough and r.has_ace_inhibitor)",
  },
  { when: "angioedema", sql: "r.has_angioedema" },
  {
    when: "potassium-above-5",
    sql: `${isPotassiumAboveFive} and not p.is_potassium_high_lately`,
  },
  { when: "potassium-above-5.5", sql: "p.is_potassium_high_lately" },
  { when: "potassium-not-lately", sql: "p.potassium_on is null or p.potassium_on <= w.last_90_days_after" },
  { when: "pressure-low", sql: "p.is_pressure_low" },
  { when: "egfr-below-30", sql: "p.egfr < 30" },
  { when: "may-be-pregnant", sql: mayBePregnant },
  { when: "direct-renin-inhibitor", sql: "p.on_any_ras_blocker and not p.on_ras_blocker" },
  { when: "mineralocorticoid-antagonist", sql: "p.on_steroidal_mra or p.on_finerenone" },
  { when: "stopped", sql: "p.ras_history = 'stopped'" },
]

const Statement = {
  statement: z.string(),
  source: z.string(),
  /** What of the source was read: "read", "secondary", "from memory". */
  mark: z.string(),
}

export const RasConsideration = z.object({ public_id: z.string(), ...Statement })

export type RasConsideration = z.infer<typeof RasConsideration>

/** The published statements that concern those listed on a day, in the order of the list they are from. */
export const rasConsiderations = {
  sql: `with ${listedIds},
reactions as (
  select r.patient_id,
    bool_or(r.kind = 'ace_inhibitor') as has_ace_inhibitor,
    bool_or(r.kind = 'arb') as has_arb,
    bool_or(r.kind = 'ace_inhibitor' and coalesce(r.reaction = 'cough', false)) as has_cough,
    bool_or(r.is_angioedema) as has_angioedema
  from ras_intolerance as r
  where r.starts_on <= cast($as_of as date)
  group by r.patient_id
)
select p.public_id, c.statement, c.source, c.mark
from patient_month as p
join listed on listed.public_id = p.public_id
join as_of_windows as w on w.as_of = p.as_of
left join reactions as r on r.patient_id = p.patient_id
join ras_considerations as c
  on case c.applies_when
    ${rasConsiderationRules.map(({ when, sql }) => `when '${when}' then coalesce((${sql}), false)`).join("\n    ")}
    else false
  end
where p.as_of = cast($as_of as date)
order by p.public_id, cast(c.place as integer)`,
  Row: RasConsideration,
} as const

export const RasStatement = z.object(Statement)

export type RasStatement = z.infer<typeof RasStatement>

/** The published statements that concern every start, in the order of the list they are from. */
export const rasStatements = {
  sql: `select c.statement, c.source, c.mark
from ras_considerations as c
where c.applies_when = 'always'
order by cast(c.place as integer)`,
  Row: RasStatement,
} as const
