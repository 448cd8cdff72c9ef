import "server-only"
import type { DuckDBConnection } from "@duckdb/node-api"
import type { SettingKey, Settings } from "../domain/settings"
import {
  triedAlikeSql,
  triedChangesSql,
  triedCountsSql,
  triedInMonthSql,
  triedMovesSql,
} from "../measures/tried-sql"
import { create, paramsOf } from "./compute"
import { askedAgain, lateSteps, mayDiffer, stepsTaken, touchedBy } from "./late-settings"
import { literal, settingsSql } from "./settings-table"
import type { Param } from "./values"
import { clinicalViews, triedSelect } from "./views"

/** The small tables that late settings shape: targets, and the days after which windows are open. */
const smallViews = ["as_of_windows", "pressure_days", "pressure_limits"]

type Under = { settings: Settings; changed: readonly SettingKey[]; asOf: string }

/**
 * Evaluates every month under other settings where all of them are late, in temporary tables and views that hide those of the
 * snapshot: no view of the facts is run, and of the touched measures only what can be answered otherwise is asked again.
 */
export async function computeLate(
  connection: DuckDBConnection,
  { settings, changed, asOf }: Under,
): Promise<void> {
  await connection.run(`create or replace temp table settings as ${settingsSql(settings)}`)
  for (const view of clinicalViews().filter((one) => smallViews.includes(one.name)))
    await create(connection, view, "temporary")
  await connection.run(
    "create or replace temp view kept_windows as select w.* from snapshot.main.as_of_windows as w",
  )
  const taken = stepsTaken(changed)
  for (const step of lateSteps) {
    const sql = taken.includes(step) ? triedSelect(step.name) : `select p.* from ${step.reads} as p`
    await connection.run(`create or replace temp view ${step.name} as ${sql}`)
  }
  await connection.run(
    "create or replace temp table tried_days as select distinct v.as_of from tried_panel as v where v.in_panel",
  )
  const touched = touchedBy(changed)
  const tried = { touched, isAsked: askedAgain(changed), mayDiffer: mayDiffer(changed) }
  const params = { ...paramsOf(touched, settings), as_of: asOf }
  await connection.run(
    `create or replace temp table tried_alike as ${withValues(triedAlikeSql(tried), params)}`,
  )
  await connection.run(`create or replace temp table tried_changes as ${triedChangesSql(tried)}`)
  await connection.run(
    `create or replace temp view measure_months as ${triedCountsSql(ofToday("measure_months"))}`,
  )
  await connection.run(
    `create or replace temp view measure_in_month as ${triedInMonthSql(ofToday("measure_in_month"))}`,
  )
  await connection.run(
    `create or replace temp table tried_moves as ${withValues(triedMovesSql(tried), params)}`,
  )
  await countDiet(connection, taken)
}

/** The months of diet, of which a setting that is late shapes only who is in the panel. */
async function countDiet(
  connection: DuckDBConnection,
  taken: readonly { readonly name: string }[],
): Promise<void> {
  if (!taken.some((step) => step.name === "tried_panel")) {
    await connection.run(`create or replace temp view diet_months as ${ofToday("diet_months")}`)
    return
  }
  await connection.run(
    `create or replace temp table patient_diet_months as ${triedSelect("tried_diet_months")}`,
  )
  for (const view of clinicalViews().filter((one) => one.name === "diet_months"))
    await create(connection, view, "temporary")
}

/** The figures of the snapshot, those of closed months as today's facts make them. */
function ofToday(table: string): string {
  return `select m.* from snapshot.main.${table} as m
    where m.as_of not in (select c.as_of from snapshot.main.closed_months as c)
    union all by name
    select m.* from snapshot.main.${table}_today as m`
}

/** With the values themselves for parameters: a view takes none, and of a measure not every question is asked again. */
function withValues(sql: string, params: Record<string, Param>): string {
  return sql.replace(/\$(\w+)/g, (whole, name: string) => {
    const value = params[name]
    return value === undefined || typeof value === "boolean" ? whole : literal(value)
  })
}
