import "server-only"
import type { DuckDBConnection } from "@duckdb/node-api"
import { differencesOf } from "../domain/closed-figures"
import type { ClosedMonth } from "../domain/closed-month"
import { closedTables } from "./closed-tables"
import { definitionsHash } from "./definitions"
import { askFigures } from "./figures-of"

const counted = ["measure_months", "measure_in_month", "diet_months"] as const

/**
 * Puts the rows of closed months, as known when they were closed, in the place of today's, which are kept beside them; so
 * every screen, list and file shows a closed month without knowing that it is one. Where the figures kept at the closing do
 * not come out again (an erasure, other definitions), the counts are the kept ones.
 */
export async function putClosedMonths(
  connection: DuckDBConnection,
  closed: readonly { month: ClosedMonth; file: string }[],
): Promise<void> {
  await connection.run(
    `create or replace table closed_months(
       as_of date, closing_id integer, closed_at varchar, closed_by varchar, settings varchar,
       is_reproduced boolean, is_of_these_definitions boolean, people_gone integer)`,
  )
  for (const { month } of closed)
    await connection.run(
      `insert into closed_months
       select d.as_of, $id, $closed_at, $closed_by, $settings, true, $is_same, 0
       from as_of_dates as d where d.as_of = cast($as_of as date)`,
      {
        ...{ id: month.id, as_of: month.asOf, closed_by: month.closedBy },
        ...{ closed_at: month.closedAt.toISOString(), settings: JSON.stringify(month.settings) },
        is_same: month.definitions === definitionsHash(),
      },
    )
  for (const table of [...closedTables, ...counted])
    await connection.run(
      `create or replace table ${table}_today as
       select t.* from ${table} as t where t.as_of in (select c.as_of from closed_months as c)`,
    )
  for (const one of closed) await putOne(connection, one)
}

async function putOne(
  connection: DuckDBConnection,
  { month, file }: { month: ClosedMonth; file: string },
): Promise<void> {
  const place = await connection.runAndReadAll(
    "select c.as_of from closed_months as c where c.closing_id = $id",
    { id: month.id },
  )
  if (place.currentRowCount === 0) return
  await connection.run(`attach '${file.replaceAll("'", "''")}' as kept (read_only)`)
  const day = { as_of: month.asOf }
  for (const table of [...closedTables, ...counted])
    await connection.run(`delete from ${table} where as_of = cast($as_of as date)`, day)
  await connection.run(missingSetsSql)
  await connection.run(valuesSql)
  for (const table of ["patient_diet_months", "patient_standings", ...counted])
    await connection.run(`insert into ${table} by name select t.* from kept.main.${table} as t`)
  await connection.run("detach kept")
  const computed = await askFigures(connection, month.asOf)
  const isReproduced = differencesOf(month.figures, computed).length === 0
  if (!isReproduced) await putFigures(connection, month)
  await connection.run(
    `update closed_months set is_reproduced = $is_reproduced, people_gone = (
       select cast(count(*) as integer) from patient_standings as s
       where s.as_of = cast($as_of as date) and s.patient_id not in (select p.patient_id from people as p))
     where as_of = cast($as_of as date)`,
    { ...day, is_reproduced: isReproduced },
  )
}

// The number of a set of drug classes is this snapshot's own, so sets are found again by their words.
const missingSetsSql = `
insert into drug_sets (what, drug_set, words, size)
select k.what, least(0, (select min(d.drug_set) from drug_sets as d))
    - row_number() over (order by k.what, k.drug_set), k.words, k.size
from kept.main.drug_sets as k
where not exists (select 1 from drug_sets as d where d.what = k.what and d.words = k.words)`

// Who the next visit is with is asked of the running month, and is no part of what was closed.
const valuesSql = `
insert into patient_values by name
select v.* replace (
  classes.drug_set as class_set,
  kinds.drug_set as kind_set,
  days.is_running as is_running,
  case when days.is_running then today.next_visit_on end as next_visit_on
)
from kept.main.patient_values as v
join as_of_dates as days on days.as_of = v.as_of
left join patient_values_today as today on today.patient_id = v.patient_id and today.as_of = v.as_of
left join kept.main.drug_sets as own_classes on own_classes.what = 'class' and own_classes.drug_set = v.class_set
left join drug_sets as classes on classes.what = 'class' and classes.words = own_classes.words
left join kept.main.drug_sets as own_kinds on own_kinds.what = 'kind' and own_kinds.drug_set = v.kind_set
left join drug_sets as kinds on kinds.what = 'kind' and kinds.words = own_kinds.words`

async function putFigures(connection: DuckDBConnection, { asOf, figures }: ClosedMonth): Promise<void> {
  const { measures, inMonth, diet } = figures
  const rows = { measure_months: measures, measure_in_month: inMonth, diet_months: diet }
  for (const table of counted) {
    await connection.run(`delete from ${table} where as_of = cast($as_of as date)`, { as_of: asOf })
    for (const row of rows[table]) {
      const columns = Object.keys(row)
      await connection.run(
        `insert into ${table} (as_of, ${columns.join(", ")})
         values (cast($as_of as date), ${columns.map((column) => `$${column}`).join(", ")})`,
        { as_of: asOf, ...row },
      )
    }
  }
}
