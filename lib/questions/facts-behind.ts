import { drugEvidence } from "./drug-evidence"
import { factRows } from "./fact-rows"
import { highPotassiums } from "./potassium-advice"
import { pressureEvidence } from "./pressure-evidence"

/**
 * The steps that end in `behind`: each kind of fact about one person with its source rows, a row each. They build on `person` and
 * `recent` of `fact-rows.ts` and ask for `$as_of` and `$home_window_days`.
 */
export const factsBehind = `${pressureEvidence},
${drugEvidence},
${highPotassiums},
filtration as materialized (
  select f.day, 'labs:' || f.import_id || ':' || f.line as source
  from filtration_results as f
  join person on person.patient_id = f.patient_id and f.day <= person.as_of
  where f.is_usable
),
urines as materialized (
  select u.day, u.test, u.a, u.confirmed_by_day, 'labs:' || u.import_id || ':' || u.line as source
  from urine_results as u
  join person on person.patient_id = u.patient_id and u.day <= person.as_of
),
visits as materialized (
  select v.kind, v.started_on, 'visits:' || v.import_id || ':' || v.line as source
  from visits_raw as v
  join person on person.patient_id = v.patient_id and v.started_on <= person.as_of
),
taken as materialized (
  select i.ingredient, i.kind, spans.ends_on, spans.ends_on is null or spans.ends_on > person.as_of as is_active,
    'medications:' || o.import_id || ':' || o.line as source
  from order_spans as spans
  join person on person.patient_id = spans.patient_id and spans.started_on <= person.as_of
  join orders as o on o.order_key = spans.order_key
  join order_ingredients as i on i.order_key = spans.order_key
),
active as materialized (
  select taken.ingredient, taken.kind, listed.interferes, taken.source
  from taken
  left join drug_ingredients as listed on listed.ingredient = taken.ingredient
  where taken.is_active
),
conditions as materialized (
  select c.condition, 'problems:' || c.import_id || ':' || c.line as source
  from condition_spans as c
  join person on person.patient_id = c.patient_id
    and c.starts_on <= person.as_of and (c.ends_on is null or c.ends_on > person.as_of)
),
behind as (
  ${Object.entries(factRows)
    .map(([kind, sql]) => `select '${kind}' as kind, f.source from (${sql}) as f`)
    .join("\n  union all\n  ")}
)`
