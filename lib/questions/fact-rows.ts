import type { FactKind } from "../measures/fact-kind"

/**
 * The select of the source rows of each kind of fact about one person on one day: `source`, "labs:2:214" for line 214 of labs.csv of
 * import 2. Over `person`, a row of `patient_month` with the windows of its day, `recent`, that of `recent_facts_at`, and the steps
 * of `factsBehind`.
 */
export const factRows: Readonly<Record<FactKind, string>> = {
  pressure: "select unnest(r.sources) as source from representative as r where r.topic = 'representative'",
  "reading of 180 or 120": `select r.source from readings as r
    join recent on r.day = recent.very_high_on and r.systolic = recent.very_high_systolic and r.diastolic = recent.very_high_diastolic
    where r.is_counted`,
  "last counted day":
    "select r.source from readings as r join recent on r.day = recent.last_reading_on where r.is_counted",
  potassium: `select 'labs:' || k.import_id || ':' || k.line as source
    from potassium_results as k
    join person on person.patient_id = k.patient_id and k.day = person.potassium_on and k.potassium = person.potassium
    where not k.is_haemolysed`,
  "potassium above 5.5": `select h.source from high_potassiums as h
    join person on person.patient_id = h.patient_id
    where h.place = 1`,
  eGFR: "select f.source from filtration as f join person on f.day = person.egfr_on",
  "kidney tests": "select f.source from filtration as f join person on f.day = person.egfr_tested_on",
  urine: "select u.source from urines as u join person on u.day = person.urine_last_on",
  "confirming urine": `select u.source from urines as u
    join urines as latest on latest.confirmed_by_day = u.day
    join person on latest.day = person.urine_last_on and person.albuminuria = 'confirmed'
    where u.a in ('A2', 'A3')`,
  ACR: "select u.source from urines as u join person on u.day = person.acr_on where u.test = 'uacr'",
  "diet record": `select d.file || ':' || d.import_id || ':' || d.line as source
    from sodium_records as d
    join person on person.patient_id = d.patient_id and d.day = person.diet_last_on`,
  "last visit": `select v.source from visits as v
    join recent on v.started_on = recent.last_visit_on
    where v.kind in ('office', 'telehealth', 'dialysis')`,
  "drugs of counted classes": "select unnest(c.sources) as source from classes as c",
  "RAS blockers":
    "select a.source from active as a where a.kind in ('ace_inhibitor', 'arb', 'direct_renin_inhibitor')",
  "mineralocorticoid antagonists":
    "select a.source from active as a where a.kind = 'steroidal_mra' or a.ingredient = 'finerenone'",
  "potassium-sparing diuretics": "select a.source from active as a where a.kind = 'potassium_sparing'",
  "interfering drugs": "select a.source from active as a where a.interferes = 'yes'",
  "drugs with gaps of supply": `select o.source from supply_gaps as g
    join person on person.patient_id = g.patient_id
      and g.gap_from <= person.as_of and (g.gap_before is null or g.gap_before > person.as_of - 179)
    join active on active.ingredient = g.ingredient
    join taken as o on o.ingredient = g.ingredient and (o.ends_on is null or o.ends_on > person.as_of - 179)`,
  "stop without taper": `select unnest(s.sources) as source from stops as s
    join person on s.day = person.untapered_stop_on
    where s.topic = 'withdrawal'`,
  "start without tests":
    "select unnest(s.sources) as source from checked_starts as s join recent on s.day = recent.unchecked_start_on",
  CKD: "select c.source from conditions as c where c.condition in ('ckd', 'ckd_stage_5')",
  dialysis: `select c.source from conditions as c where c.condition = 'dialysis'
    union all
    select v.source from visits as v join person on v.started_on > person.quarter_after where v.kind = 'dialysis'`,
  transplant: "select c.source from conditions as c where c.condition = 'transplant'",
  diabetes: "select c.source from conditions as c where c.condition = 'diabetes'",
  "heart failure": "select c.source from conditions as c where c.condition = 'heart_failure'",
  "atrial fibrillation": "select c.source from conditions as c where c.condition = 'atrial_fibrillation'",
  pregnancy: "select c.source from conditions as c where c.condition = 'pregnancy'",
  angioedema: `select 'allergies:' || r.import_id || ':' || r.line as source from ras_intolerance as r
    join person on person.patient_id = r.patient_id and r.starts_on <= person.as_of
    where r.is_angioedema`,
  person: `select 'patients:' || people.import_id || ':' || people.line as source from people
    join person on person.patient_id = people.patient_id`,
}
