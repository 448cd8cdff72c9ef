import "server-only"
import { readdirSync, readFileSync } from "node:fs"
import path from "node:path"
import type { DuckDBConnection } from "@duckdb/node-api"

const clinicalDir = path.resolve(process.cwd(), "lib/clinical")

/** One file of lib/clinical/views: a select that becomes the table (`.view.sql`: the view) named after its number. */
export type View = {
  readonly name: string
  readonly kind: "table" | "view"
  readonly sql: string
  readonly reads: ReadonlySet<string>
}

/** The clinical views in the order in which they build on each other. */
export function clinicalViews(): View[] {
  const dir = path.join(clinicalDir, "views")
  return sqlFiles(dir).map((file) => {
    const sql = readFileSync(path.join(dir, file), "utf8")
    return {
      name: file.replace(/^\d+_/, "").replace(/(\.view)?\.sql$/, ""),
      kind: file.endsWith(".view.sql") ? "view" : "table",
      sql,
      reads: tablesRead(sql),
    }
  })
}

/** The views that change when the given tables do, directly or through other views, in order. */
export function dependentViews(views: readonly View[], tables: readonly string[]): View[] {
  const changed = new Set(tables)
  return views.filter((view) => {
    const isChanged = [...view.reads].some((name) => changed.has(name))
    if (isChanged) changed.add(view.name)
    return isChanged
  })
}

/** What a change of settings is followed to: the wide row that measures read, and the months of diet. */
const ends = ["patient_month", "diet_months"]

/**
 * The views to run again when the given columns of `settings` change, in order: those that read such a column or build on
 * one that does, and whatever they read that is not in the snapshot; only as far as the ends need them.
 */
export function viewsUnder(
  views: readonly View[],
  changed: { columns: readonly string[]; inSnapshot: ReadonlySet<string> },
): View[] {
  const windows = windowsOf(views, changed.columns)
  const reading = views.filter((view) => [...changed.columns, ...windows].some((one) => mentions(view, one)))
  const names = new Set(reading.map((view) => view.name))
  const followed = [...names].filter((name) => name !== windowView)
  const building = new Set(dependentViews(views, followed).map((view) => view.name))
  const needed = new Set(ends)
  const run = views.toReversed().filter((view) => {
    const isOther = names.has(view.name) || building.has(view.name)
    if (!needed.has(view.name) || (!isOther && changed.inSnapshot.has(view.name))) return false
    for (const read of view.reads) needed.add(read)
    return true
  })
  return run.toReversed()
}

const windowView = "as_of_windows"

/** The columns of the view of windows that change: each stands on a line of its own, and who reads it names it. */
function windowsOf(views: readonly View[], columns: readonly string[]): string[] {
  const lines = views.find((view) => view.name === windowView)?.sql.split("\n") ?? []
  return lines
    .filter((line) => columns.some((column) => line.includes(column)))
    .flatMap((line) => /as (\w+),?$/.exec(line)?.[1] ?? [])
}

function mentions(view: View, column: string): boolean {
  return new RegExp(`\\b${column}\\b`).test(view.sql)
}

/** One select of lib/clinical/tried. */
export function triedSelect(name: string): string {
  return readFileSync(path.join(clinicalDir, "tried", `${name}.sql`), "utf8")
}

export async function createFormulas(connection: DuckDBConnection): Promise<void> {
  const dir = path.join(clinicalDir, "formulas")
  for (const file of sqlFiles(dir)) await connection.run(readFileSync(path.join(dir, file), "utf8"))
}

export async function loadCodeLists(connection: DuckDBConnection): Promise<void> {
  const dir = path.join(clinicalDir, "codes")
  for (const file of readdirSync(dir).filter((name) => name.endsWith(".csv"))) {
    const name = file.replace(/\.csv$/, "").replaceAll("-", "_")
    await connection.run(
      `create or replace table ${name} as
       select * from read_csv('${path.join(dir, file).replaceAll("'", "''")}', header = true, all_varchar = true, nullstr = '')`,
    )
  }
}

function sqlFiles(dir: string): string[] {
  return readdirSync(dir)
    .filter((name) => name.endsWith(".sql"))
    .sort()
}

function tablesRead(sql: string): Set<string> {
  const withoutComments = sql.replace(/--.*$/gm, "")
  return new Set(
    [...withoutComments.matchAll(/\b(?:from|join)\s+([a-z_0-9]+)/gi)].map((match) => match[1] ?? ""),
  )
}
