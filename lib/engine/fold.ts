import "server-only"
import type { RawTable } from "./raw-tables"

/**
 * The select that hands the facts of merged records to the survivor and drops those of test records.
 * Where a person has several records, facts identical but for the patient and the row's own id count once:
 * the n-th such row under one record is the n-th under the other.
 */
export function foldSql(table: RawTable): string {
  const own = Object.keys(table.columns).filter((column) => column !== "patient_id")
  const content = own.filter(
    (column) => !table.identity.includes(column) && column !== "import_id" && column !== "line",
  )
  const columns = own.map((column) => `f.${column}`).join(", ")
  const contentColumns = content.map((column) => `f.${column}`).join(", ")
  return `
with owned as (
  select owners.patient_id, owners.is_shared, f.patient_id as record_id, ${columns}
  from loaded_${table.name} as f
  join fact_owners as owners on owners.record_id = f.patient_id
),
numbered as (
  select f.*, row_number() over (
    partition by f.patient_id, f.record_id, ${contentColumns} order by f.import_id, f.line
  ) as occurrence
  from owned as f
  where f.is_shared
),
placed as (
  select f.*, row_number() over (
    partition by f.patient_id, f.occurrence, ${contentColumns}
    order by case when f.record_id = f.patient_id then 0 else 1 end, f.record_id, f.import_id, f.line
  ) as copy
  from numbered as f
)
select f.patient_id, f.record_id, ${columns} from owned as f where not f.is_shared
union all
select f.patient_id, f.record_id, ${columns} from placed as f where f.copy = 1`
}
