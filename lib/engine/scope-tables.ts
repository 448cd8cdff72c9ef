import "server-only"
import { countedTables, countedTodayTables } from "./closed-tables"

/** How a table of the snapshot that names no patient is handed to someone who may see some people only. */
export type TableOfNobody =
  /** The same for everybody: days, settings, code lists. */
  | { readonly kind: "shared" }
  /** Rows of orders: those of the orders of people in scope. */
  | { readonly kind: "by order" }
  /** Figures over people, or texts from their records: made anew from what is in scope. */
  | { readonly kind: "anew"; readonly sql: string }
  /** Texts as the extracts spell them, which no question reads. */
  | { readonly kind: "left out" }

const shared = [
  ...[
    "as_of_dates",
    "as_of_windows",
    "pressure_days",
    "settings",
    "snapshot_meta",
    "closed_months",
    "clinicians",
  ],
  ...["allergy_groups", "conditions", "drug_combinations", "drug_ingredients", "drug_names", "drug_reasons"],
  ...["drug_words"],
  ...[
    "drug_words_used",
    "lab_tests",
    "lab_units",
    "answer_codes",
    "route_words",
    "known_phrases",
    "code_ingredients",
  ],
  ...["drug_sets", "drug_name_mappings", "pressure_limits", "ras_considerations", "potassium_advice"],
  ...["class_guidance", "kidney_products"],
]
const byOrder = ["order_doses", "order_ingredients"]
const leftOut = ["normalised_texts", "text_words", "text_phrases", "text_ingredients", "allergy_kinds"]

const drugTextsSql = `
with used as (
  select o.drug, o.code_system, o.code,
    cast(count(*) as integer) as orders, cast(count(distinct o.patient_id) as integer) as patients
  from orders as o
  group by o.drug, o.code_system, o.code
)
select t.text, t.code_system, t.code, t.normalised, used.orders, used.patients, t.text_ingredients,
  t.code_ingredients, t.ingredients, t.unknown_words, t.disagrees, t.status
from whole.drug_texts as t
join used on used.drug = t.text
  and used.code_system is not distinct from t.code_system and used.code is not distinct from t.code`

const drugSuggestionsSql = `
select s.normalised, s.word, s.name, s.ingredient
from whole.drug_suggestions as s
where s.normalised in (select t.normalised from drug_texts as t)`

/**
 * The closed list of tables without a patient in them, in the order in which they can be made. `whole.` stands for the
 * snapshot itself, any other name for what is in scope.
 */
export function tablesOfNobody(): ReadonlyMap<string, TableOfNobody> {
  return new Map<string, TableOfNobody>([
    ...shared.map((name) => [name, { kind: "shared" }] as const),
    ...byOrder.map((name) => [name, { kind: "by order" }] as const),
    ...leftOut.map((name) => [name, { kind: "left out" }] as const),
    ...[...countedTables(), ...countedTodayTables()].map(
      ([name, sql]) => [name, { kind: "anew", sql }] as const,
    ),
    ["drug_texts", { kind: "anew", sql: drugTextsSql }],
    ["drug_suggestions", { kind: "anew", sql: drugSuggestionsSql }],
  ])
}
