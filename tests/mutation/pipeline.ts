import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import { Settings } from "../../lib/domain/settings"
import { paramsOf } from "../../lib/engine/compute"
import { foldSql } from "../../lib/engine/fold"
import { rawTables } from "../../lib/engine/raw-tables"
import { settingsSql } from "../../lib/engine/settings-table"
import type { Param } from "../../lib/engine/values"
import { clinicalViews, createFormulas, loadCodeLists } from "../../lib/engine/views"
import { measures } from "../../lib/measures/index"
import { standingsSql } from "../../lib/measures/standing-sql"

/** One select of the computation, in the order of computing; a view of `lib/clinical`, the folding of merged records, the standings. */
export type Step = {
  name: string
  kind: "table" | "view"
  sql: string
  reads: ReadonlySet<string>
  params?: Record<string, Param>
}

export type Pipeline = {
  connection: DuckDBConnection
  steps: Step[]
  signatures: Map<string, string>
  settings: Settings
}

/** The whole computation of a clinic in memory, on all its days at once, with a signature of every table. */
export async function openPipeline(clinic: {
  days: readonly string[]
  settings: unknown
  load: (connection: DuckDBConnection) => Promise<void>
}): Promise<Pipeline> {
  const settings = Settings.parse(clinic.settings)
  const instance = await DuckDBInstance.create(":memory:", {
    threads: "1",
    memory_limit: "1GB",
    temp_directory: "",
  })
  const connection = await instance.connect()
  await createFormulas(connection)
  await loadCodeLists(connection)
  await clinic.load(connection)
  await connection.run(`create table settings as ${settingsSql(settings)}`)
  const days = clinic.days.map((day) => `(date '${day}', '${day.slice(0, 7)}', true)`)
  await connection.run(
    `create table as_of_dates as from (values ${days.join(", ")}) as d(as_of, month, is_running)`,
  )
  const steps = allSteps(settings)
  const signatures = new Map<string, string>()
  for (const step of steps) {
    await connection.run(`create ${step.kind} ${step.name} as ${step.sql}`, step.params)
    signatures.set(step.name, await signatureOf(connection, step.name))
  }
  return { connection, steps, signatures, settings }
}

/**
 * Computes anew what a changed step changes, in temporary tables that hide the others, and stops where nothing differs any more.
 * Returns the names of the tables that differ.
 */
export async function recompute(pipeline: Pipeline, mutated: Step): Promise<string[]> {
  const { connection, steps, signatures } = pipeline
  const changed = new Set<string>()
  for (const step of steps.slice(steps.findIndex((one) => one.name === mutated.name))) {
    const now = step.name === mutated.name ? mutated : step
    if (now === step && ![...step.reads].some((name) => changed.has(name))) continue
    await connection.run(`create or replace temp ${now.kind} ${now.name} as ${now.sql}`, now.params)
    if ((await signatureOf(connection, now.name)) !== signatures.get(now.name)) changed.add(now.name)
    else if (now === mutated) break
  }
  return [...changed]
}

/** Takes the temporary tables away again. */
export async function restore({ connection, steps }: Pipeline): Promise<void> {
  const reader = await connection.runAndReadAll(
    "select table_name, table_type from information_schema.tables where table_catalog = 'temp'",
  )
  const kinds = new Map(
    reader.getRowsJson().map(([name, type]) => [String(name), type === "VIEW" ? "view" : "table"]),
  )
  for (const { name } of steps.toReversed())
    if (kinds.has(name)) await connection.run(`drop ${kinds.get(name)} temp.${name}`)
}

/** The content of a table whatever the order of its rows, in a few letters. */
export async function signatureOf(
  connection: DuckDBConnection,
  table: string,
  columns = "*",
): Promise<string> {
  const reader = await connection.runAndReadAll(
    `select count(*), bit_xor(hash(t)), sum(cast(hash(t) as hugeint) % 1000000007) from (select ${columns} from ${table}) as t`,
  )
  return JSON.stringify(reader.getRowsJson()[0])
}

/** The standings of the measures as given, over the patient months as they are. */
export function standingsStep(list: typeof measures, settings: Settings): Step {
  return {
    name: "patient_standings",
    kind: "table",
    sql: standingsSql(list),
    reads: new Set(["patient_month"]),
    params: paramsOf(list, settings),
  }
}

/** The facts of a clinic that was brought in. */
export async function loadKept(connection: DuckDBConnection, file: string): Promise<void> {
  await connection.run(`attach '${file}' as kept (read_only)`)
  for (const table of rawTables) {
    const name = table.isFact ? `loaded_${table.name}` : table.name
    await connection.run(`create table ${name} as from kept.kept_${name}`)
  }
  for (const name of ["drug_name_mappings", "decisions_raw"])
    await connection.run(`create table ${name} as from kept.${name}`)
  await connection.run("detach kept")
}

const identityViews = ["identities", "people", "fact_owners"]

function allSteps(settings: Settings): Step[] {
  const views = clinicalViews()
  const folds = rawTables
    .filter((table) => table.isFact)
    .map((table) => ({
      name: table.name,
      kind: "table" as const,
      sql: foldSql(table),
      reads: new Set(["fact_owners"]),
    }))
  return [
    ...views.filter((view) => identityViews.includes(view.name)),
    ...folds,
    ...views.filter((view) => !identityViews.includes(view.name)),
    standingsStep(measures, settings),
  ]
}
