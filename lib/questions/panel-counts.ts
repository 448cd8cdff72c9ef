import { z } from "zod"

export const PanelCounts = z.object({
  in_panel: z.number().int(),
  ckd_before_replacement: z.number().int(),
  without_pressure: z.number().int(),
  without_urine_albumin: z.number().int(),
  without_diet_record: z.number().int(),
  kidney_unknown: z.number().int(),
})

export type PanelCounts = z.infer<typeof PanelCounts>

/** How many are in the panel on a day, and how much of what a clinic must know of them is missing. */
export const panelCounts = {
  sql: `
select
  cast(count(*) filter (where p.in_panel) as integer) as in_panel,
  cast(count(*) filter (where p.in_panel and p.ckd and not p.on_dialysis and not p.transplant) as integer)
    as ckd_before_replacement,
  cast(count(*) filter (where p.in_panel and p.systolic is null) as integer) as without_pressure,
  cast(count(*) filter (where p.in_panel and not p.is_urine_tested_in_year) as integer) as without_urine_albumin,
  cast(count(*) filter (where p.in_panel and not p.has_diet_record_in_year) as integer) as without_diet_record,
  cast(count(*) filter (where p.in_panel and not p.kidney_known) as integer) as kidney_unknown
from patient_month as p
where p.as_of = cast($as_of as date)`,
  Row: PanelCounts,
} as const
