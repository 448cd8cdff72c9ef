import "server-only"
import type { DuckDBConnection } from "@duckdb/node-api"
import type { SettingKey, Settings } from "../domain/settings"
import type { Measure } from "../measures/types"
import { measures } from "../measures/index"
import { inMonthSql } from "../measures/in-month-sql"
import { countsSql, standingsSql } from "../measures/standing-sql"
import { standingsMovedSql, triedRowsSql } from "../measures/tried-sql"
import { wordedMeasure } from "../measures/worded-measures"
import { closedByPerson } from "./closed-tables"
import { foldSql } from "./fold"
import { rawTables } from "./raw-tables"
import { columnOf, settingsSql } from "./settings-table"
import type { Param } from "./values"
import { clinicalViews, dependentViews, triedSelect, viewsUnder, type View } from "./views"

/** The views from which the facts of merged records are folded; they read records only. */
const identityViews = ["identities", "people", "fact_owners"]

/** The view whose rows keep the order of `patient_days`, and with it what is made of them: most questions are of one day. */
const inOrderOfDays = "patient_values"

/**
 * Runs every view over the loaded facts of the connection's database, for the months up to today, or for the end of one
 * month alone.
 */
export async function computeAll(
  connection: DuckDBConnection,
  options: { settings: Settings; onProgress?: (text: string) => void } & (
    { today: string } | { onlyMonthEnd: string }
  ),
): Promise<void> {
  const { settings, onProgress } = options
  const views = clinicalViews()
  const readAgain = new Set(
    dependentViews(views, ["as_of_dates", "settings"]).flatMap((view) => [...view.reads]),
  )
  await connection.run(`create or replace table settings as ${settingsSql(settings)}`)
  for (const view of views.filter((one) => identityViews.includes(one.name)))
    await create(connection, view, "kept")
  for (const { name, ...table } of rawTables.filter((one) => one.isFact)) {
    await connection.run(
      `create or replace ${readAgain.has(name) ? "table" : "temp table"} ${name} as ${foldSql({ name, ...table })}`,
    )
    await connection.run(`drop table loaded_${name}`)
  }
  await ("today" in options
    ? connection.run(asOfDatesSql, { today: options.today })
    : connection.run(oneMonthEndSql, { as_of: options.onlyMonthEnd }))
  for (const view of views.filter((one) => !identityViews.includes(one.name))) {
    onProgress?.(`Computing ${view.name.replaceAll("_", " ")}`)
    await (view.name === inOrderOfDays ? createAsWritten(connection, view) : create(connection, view, "kept"))
  }
  await assertOneRowEach(connection)
  await evaluateMeasures(connection, { measures, settings, kind: "kept" })
  if ("today" in options) await keepTriedRows(connection, settings)
}

/** Keeps what other settings are tried on. */
async function keepTriedRows(connection: DuckDBConnection, settings: Settings): Promise<void> {
  await connection.run(`create or replace temp table sodium_means as ${triedSelect("sodium_means")}`)
  await connection.run(
    `create or replace table tried_rows as ${triedRowsSql()}`,
    paramsOf(measures, settings),
  )
  await connection.run("drop table sodium_means")
}

/** Evaluates `patient_month` and the standings for one other day, in temporary tables that hide those of the snapshot. */
export async function computeDay(
  connection: DuckDBConnection,
  options: { settings: Settings; asOf: string },
): Promise<void> {
  await connection.run(
    `create or replace temp table as_of_dates as
     select cast($as_of as date) as as_of, strftime(cast($as_of as date), '%Y-%m') as month, true as is_running`,
    { as_of: options.asOf },
  )
  for (const view of dependentViews(clinicalViews(), ["as_of_dates"]))
    await create(connection, view, "temporary")
  await evaluateMeasures(connection, { measures, settings: options.settings, kind: "temporary" })
}

/**
 * Evaluates every month under other settings, in temporary tables that hide those of the snapshot. Only the views whose
 * result can be another one are run, and those that they read and the snapshot does not keep.
 */
export async function computeUnder(
  connection: DuckDBConnection,
  options: { settings: Settings; changed: readonly SettingKey[]; asOf: string; signal?: AbortSignal },
): Promise<void> {
  const { settings, changed, asOf, signal } = options
  const inSnapshot = new Set(await tablesKept(connection))
  await connection.run(`create or replace temp table settings as ${settingsSql(settings)}`)
  const views = viewsUnder(clinicalViews(), { columns: changed.map(columnOf), inSnapshot })
  await hideClosed(connection, { views, inSnapshot })
  for (const view of views) {
    signal?.throwIfAborted()
    await create(connection, view, "temporary")
  }
  signal?.throwIfAborted()
  await evaluateMeasures(connection, { measures, settings, kind: "temporary" })
  await connection.run(`create or replace temp table tried_moves as ${standingsMovedSql(measures)}`, {
    as_of: asOf,
  })
}

/**
 * The standings of some months by today's facts and what was set at another time, put into a table of the snapshot; only
 * while the snapshot is built, when all its tables are there. The temporary tables hide the snapshot's and are dropped.
 */
export async function computeAsSet(
  connection: DuckDBConnection,
  options: { settings: Settings; roots: readonly string[]; into: string },
): Promise<void> {
  const { settings, into } = options
  await connection.run(`create or replace temp table settings as ${settingsSql(settings)}`)
  const views = dependentViews(clinicalViews(), options.roots)
  for (const view of views) await create(connection, view, "temporary")
  await evaluateMeasures(connection, { measures, settings, kind: "temporary" })
  await connection.run(`insert into ${into} by name select s.* from patient_standings as s`)
  for (const { kind, name } of views.toReversed()) await connection.run(`drop ${kind} temp.main.${name}`)
  for (const table of ["settings", "patient_standings", "measure_months", "measure_in_month"])
    await connection.run(`drop table temp.main.${table}`)
}

/** Other settings are tried on what is known today: the people of months that were closed are not read as they were known then. */
async function hideClosed(
  connection: DuckDBConnection,
  { views, inSnapshot }: { views: readonly View[]; inSnapshot: ReadonlySet<string> },
): Promise<void> {
  if (!inSnapshot.has("closed_months") || (await countClosed(connection)) === 0) return
  const runAgain = new Set(views.map((view) => view.name))
  for (const table of closedByPerson.filter((name) => !runAgain.has(name) && inSnapshot.has(name)))
    await connection.run(
      `create or replace temp view ${table} as
       select t.* from snapshot.main.${table} as t
       where t.as_of not in (select c.as_of from snapshot.main.closed_months as c)
       union all by name select t.* from snapshot.main.${table}_today as t`,
    )
  for (const view of clinicalViews().filter((one) => one.name === "patient_month" && !runAgain.has(one.name)))
    await create(connection, view, "temporary")
}

async function countClosed(connection: DuckDBConnection): Promise<number> {
  const reader = await connection.runAndReadAll("select cast(count(*) as integer) as n from closed_months")
  return Number(reader.value(0, 0))
}

async function tablesKept(connection: DuckDBConnection): Promise<string[]> {
  const reader = await connection.runAndReadAll(
    `select table_name from duckdb_tables() where database_name = current_database()
     union all
     select view_name from duckdb_views() where database_name = current_database() and not internal`,
  )
  return reader.getRows().map(([name]) => String(name))
}

async function evaluateMeasures(
  connection: DuckDBConnection,
  options: { measures: readonly Measure[]; settings: Settings; kind: "kept" | "temporary" },
): Promise<void> {
  const table = options.kind === "kept" ? "table" : "temp table"
  const worded = options.measures.map((measure) => wordedMeasure(measure, options.settings))
  await connection.run(
    `create or replace ${table} patient_standings as ${standingsSql(worded)}`,
    paramsOf(options.measures, options.settings),
  )
  await connection.run(`create or replace ${table} measure_months as ${countsSql(options.measures)}`)
  await connection.run(`create or replace ${table} measure_in_month as ${inMonthSql(options.measures)}`)
}

/** A join that fans out would count people twice; no such snapshot may be shown. */
async function assertOneRowEach(connection: DuckDBConnection): Promise<void> {
  const reader = await connection.runAndReadAll(
    `select cast(count(*) as integer) as n from (
       select patient_id, as_of from patient_values group by patient_id, as_of having count(*) > 1)`,
  )
  const repeated = Number(reader.value(0, 0))
  if (repeated > 0) throw new Error(`${repeated} patients and days have more than one row in patient_values`)
}

/** The named parameters of the measures' conditions, filled from the settings they name. */
export function paramsOf(list: readonly Measure[], settings: Settings): Record<string, Param> {
  const byKey = new Map<string, Param>(Object.entries(settings))
  return Object.fromEntries(
    list.flatMap((measure) =>
      Object.entries(measure.params).map(([name, key]) => [name, byKey.get(key) ?? null] as const),
    ),
  )
}

/**
 * Keeps a view with its joins taken as they are written, each table after the first one looked up: rows come in the order of
 * the first. Of many tables with a row for everybody this is also quicker than the order that is estimated to be best.
 */
async function createAsWritten(connection: DuckDBConnection, view: View): Promise<void> {
  await connection.run("set disabled_optimizers = 'join_order,build_side_probe_side'")
  try {
    await create(connection, view, "kept")
  } finally {
    await connection.run("reset disabled_optimizers")
  }
}

export async function create(
  connection: DuckDBConnection,
  view: View,
  kind: "kept" | "temporary",
): Promise<void> {
  try {
    await connection.run(
      `create or replace ${kind === "kept" ? "" : "temp"} ${view.kind} ${view.name} as ${view.sql}`,
    )
  } catch (cause) {
    throw new Error(`the view ${view.name} failed: ${cause instanceof Error ? cause.message : "unknown"}`, {
      cause,
    })
  }
}

const oneMonthEndSql = `
create or replace table as_of_dates as
select cast($as_of as date) as as_of, strftime(cast($as_of as date), '%Y-%m') as month, false as is_running`

/**
 * The 36 month-ends before the running month and the running month at the latest day that has a reading, a laboratory
 * result or a visit. Where this calendar month has no such day yet, the last month that has one is complete and stands at its end.
 */
const asOfDatesSql = `
create or replace table as_of_dates as
with through as (
  select max(day) as latest_day
  from (
    select max(cast(taken_at as date)) as day from readings_raw where cast(taken_at as date) <= cast($today as date)
    union all
    select max(cast(collected_at as date)) from labs_raw where cast(collected_at as date) <= cast($today as date)
    union all
    select max(started_on) from visits_raw where started_on <= cast($today as date)
  )
),
running as (
  select
    case
      when latest_day is null then cast($today as date)
      when date_trunc('month', latest_day) = date_trunc('month', cast($today as date)) then latest_day
      else last_day(latest_day)
    end as as_of
  from through
)
select as_of, strftime(as_of, '%Y-%m') as month, true as is_running from running
union all
select
  last_day(months_before(cast(date_trunc('month', running.as_of) as date), cast(back.n as integer))),
  strftime(months_before(cast(date_trunc('month', running.as_of) as date), cast(back.n as integer)), '%Y-%m'),
  false
from running
cross join range(1, 37) as back(n)`
