import { measures } from "../measures/index"
import { z } from "zod"

const number = z.number().nullable()
const text = z.string().nullable()

export const PanelPatient = z.object({
  patient_id: z.string(),
  public_id: z.string(),
  systolic: number,
  diastolic: number,
  bp_source: text,
  bp_on: text,
  category: text,
  classes: z.array(z.string()),
  egfr: number,
  g: text,
  acr: number,
  a: text,
  albuminuria: z.string(),
  ckd: z.boolean(),
  on_ras_blocker: z.boolean(),
  ras_history: z.string(),
  sodium_mg: number,
  potassium_mg: number,
  standings: z.array(z.string()),
})

export type PanelPatient = z.infer<typeof PanelPatient>

/** Every panel patient of one day with the clinical values, and the standings in the order of the measures. */
export const panelPatients = {
  sql: `select
  p.patient_id, p.public_id, p.systolic, p.diastolic, p.bp_source, p.bp_on, p.category, p.classes, p.egfr, p.g, p.acr, p.a,
  p.albuminuria, p.ckd, p.on_ras_blocker, p.ras_history, p.sodium_mg, p.potassium_mg,
  [${measures.map((measure) => `s.${measure.column}`).join(", ")}] as standings
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date)
order by p.patient_id`,
  Row: PanelPatient,
}
