import "server-only"
import { readFileSync } from "node:fs"
import path from "node:path"
import type { DuckDBConnection } from "@duckdb/node-api"
import type { SettingKey, Settings } from "../domain/settings"
import { countsSql } from "../measures/standing-sql"
import { triedInMonthSql, triedMovesSql, triedTally, triedTallySql } from "../measures/tried-sql"
import type { Measure } from "../measures/types"
import { create, paramsOf } from "./compute"
import { askedAgain, lateSteps, stepsTaken, touchedBy } from "./late-settings"
import { literal, settingsSql } from "./settings-table"
import type { Param } from "./values"
import { clinicalViews } from "./views"

const triedDir = path.resolve(process.cwd(), "lib/clinical/tried")

/** The small tables that late settings shape: targets, and the days after which the windows of the pressure are open. */
const smallViews = ["pressure_days", "pressure_limits"]

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
  const taken = stepsTaken(changed)
  for (const step of lateSteps) {
    const sql = taken.includes(step)
      ? readFileSync(path.join(triedDir, `${step.name}.sql`), "utf8")
      : `select p.* from ${step.reads} as p`
    await connection.run(`create or replace temp view ${step.name} as ${sql}`)
  }
  const touched = touchedBy(changed)
  const tried = { touched, isAsked: askedAgain(changed) }
  const params = { ...paramsOf(touched, settings), as_of: asOf }
  await connection.run(
    `create or replace temp table ${triedTally.from} as ${withValues(triedTallySql(tried), params)}`,
  )
  await connection.run(
    `create or replace temp table measure_months as
     ${countsSql(touched, triedTally)} union all by name ${ofToday("measure_months", touched)}`,
  )
  const inMonth = [withValues(triedInMonthSql(tried), params), ofToday("measure_in_month", touched)]
  await connection.run(
    `create or replace temp view measure_in_month as
     ${inMonth.filter((sql) => sql !== "").join(" union all by name ")}`,
  )
  await connection.run(
    `create or replace temp table tried_moves as ${withValues(triedMovesSql(tried), params)}`,
  )
  await connection.run(`create or replace temp view diet_months as ${ofToday("diet_months", [])}`)
}

/** The counts of the snapshot, those of closed months as today's facts make them, but for the given measures. */
function ofToday(table: string, leftOut: readonly Measure[]): string {
  const ids = leftOut.map(({ id }) => `'${id}'`).join(", ")
  const isOther = ids === "" ? "true" : `m.measure_id not in (${ids})`
  return `select m.* from snapshot.main.${table} as m
    where ${isOther} and m.as_of not in (select c.as_of from snapshot.main.closed_months as c)
    union all by name
    select m.* from snapshot.main.${table}_today as m where ${isOther}`
}

/** With the values themselves for parameters: a view takes none, and of a measure not every question is asked again. */
function withValues(sql: string, params: Record<string, Param>): string {
  return sql.replace(/\$(\w+)/g, (whole, name: string) => {
    const value = params[name]
    return value === undefined || typeof value === "boolean" ? whole : literal(value)
  })
}
