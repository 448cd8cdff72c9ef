import "server-only"
import { randomBytes } from "node:crypto"
import { chmodSync, readFileSync } from "node:fs"
import { mkdir, rm, writeFile } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance, type DuckDBConnection } from "@duckdb/node-api"
import { factKinds, type FactKind } from "../domain/fact-kinds"
import { foldSql } from "./fold"
import { loadFacts } from "./load"
import { rawTables } from "./raw-tables"
import { clinicalViews, createFormulas, loadCodeLists } from "./views"

export type DeIdentified = {
  rows: Readonly<Record<FactKind, number>>
  /** Which code stands for which patient: what alone leads back to a person. */
  key: readonly { code: string; patientId: string }[]
}

/** The views that the de-identified files read: who is who, and what drug texts and substances say. */
const views = [
  ...["normalised_texts", "known_phrases", "text_words", "text_phrases", "text_ingredients"],
  ...["code_ingredients", "drug_texts", "orders", "allergy_kinds"],
]
const steps = ["01_common_values", "02_lines"] as const
const sqlDir = path.resolve(process.cwd(), "lib/clinical/de-identified")

/**
 * Writes the facts in force as an extract that names nobody, after the list of 45 CFR 164.514(b)(2)(i): docs/data-life.md says
 * what becomes of each identifier. Codes are drawn at random for this extract alone. The folder must not be there yet.
 */
export async function deIdentify(options: {
  databaseUrl: string
  outDir: string
  onProgress?: (text: string) => void
}): Promise<DeIdentified> {
  const { outDir } = options
  await mkdir(outDir, { mode: 0o700 })
  const workDir = path.join(outDir, "work")
  await mkdir(workDir, { mode: 0o700 })
  const instance = await DuckDBInstance.create(":memory:", {
    threads: "2",
    memory_limit: "3GB",
    temp_directory: path.join(workDir, "spill"),
  })
  const connection = await instance.connect()
  try {
    await prepare(connection, { ...options, workDir })
    const key = await drawCodes(connection)
    for (const step of steps)
      await connection.run(`create table ${step.replace(/^\d+_/, "")} as ${sqlOf(step)}`)
    const rows: [FactKind, number][] = []
    for (const kind of factKinds) rows.push([kind, await writeFileOf(connection, kind, outDir)])
    await writeFile(path.join(outDir, "ABOUT.txt"), about, { mode: 0o600 })
    return { rows: countsOf(rows), key }
  } finally {
    connection.closeSync()
    instance.closeSync()
    await rm(workDir, { recursive: true, force: true })
  }
}

async function prepare(
  connection: DuckDBConnection,
  options: { databaseUrl: string; workDir: string; onProgress?: (text: string) => void },
): Promise<void> {
  await createFormulas(connection)
  await loadCodeLists(connection)
  await loadFacts({ ...options, connection })
  await createViews(connection, ["identities", "people", "fact_owners"])
  for (const table of rawTables.filter((one) => one.isFact))
    await connection.run(`create table ${table.name} as ${foldSql(table)}`)
  await createViews(connection, views)
}

async function createViews(connection: DuckDBConnection, names: readonly string[]): Promise<void> {
  for (const view of clinicalViews().filter((one) => names.includes(one.name)))
    await connection.run(`create table ${view.name} as ${view.sql}`)
}

/** One random code for each person, member of staff and site; nothing about them can be read from it. */
async function drawCodes(connection: DuckDBConnection): Promise<DeIdentified["key"]> {
  await drawInto(connection, { table: "staff_codes", letter: "S", of: "select staff_id from staff_raw" })
  await drawInto(connection, {
    ...{ table: "site_codes", letter: "C" },
    of: "select site from staff_raw where site is not null union select site from people where site is not null",
  })
  const people = { table: "person_codes", letter: "P", of: "select patient_id from people" }
  return drawInto(connection, people)
}

async function drawInto(
  connection: DuckDBConnection,
  of: { table: string; letter: string; of: string },
): Promise<DeIdentified["key"]> {
  const reader = await connection.runAndReadAll(of.of)
  const drawn = new Map<string, string>()
  for (const [original] of reader.getRows()) drawn.set(freshCode(of.letter, drawn), String(original))
  await connection.run(`create table ${of.table}(code varchar, original varchar)`)
  const appender = await connection.createAppender(of.table)
  for (const [code, original] of drawn) {
    appender.appendVarchar(code)
    appender.appendVarchar(original)
    appender.endRow()
  }
  appender.closeSync()
  return [...drawn].sort().map(([code, patientId]) => ({ code, patientId }))
}

function freshCode(letter: string, taken: ReadonlyMap<string, string>): string {
  for (;;) {
    const code = `${letter}${randomBytes(5).toString("hex").toUpperCase()}`
    if (!taken.has(code)) return code
  }
}

async function writeFileOf(connection: DuckDBConnection, kind: FactKind, outDir: string): Promise<number> {
  const file = path.join(outDir, `${kind}.csv`)
  const result = await connection.runAndReadAll(
    `copy (${sqlOf(kind)}) to '${file.replaceAll("'", "''")}' (format csv, header true)`,
  )
  chmodSync(file, 0o600)
  return Number(result.getRows()[0]?.[0] ?? 0)
}

function sqlOf(name: string): string {
  return readFileSync(path.join(sqlDir, `${name}.sql`), "utf8")
}

function countsOf(rows: readonly (readonly [FactKind, number])[]): DeIdentified["rows"] {
  const counts = new Map(rows)
  const of = (kind: FactKind) => counts.get(kind) ?? 0
  return {
    ...{ staff: of("staff"), patients: of("patients"), visits: of("visits"), labs: of("labs") },
    ...{ appointments: of("appointments"), readings: of("readings"), medications: of("medications") },
    ...{ problems: of("problems"), allergies: of("allergies"), diet: of("diet") },
  }
}

const about = `A de-identified extract, made after the Safe Harbor list of 45 CFR 164.514(b)(2).

No date in these files is one of the calendar. Each person has a count of days of their own: day 0 is the first on which the
clinic had to do with them, written as 1 Jan 2001 for everybody, and a fact of n days later is written n days later. Which year
a person's day 0 was in is not said: with the days between facts it could tell the day.
A birth date is day 0 so many whole years earlier as the person was old. A birth in 1911 is the one group of ages 90 and older:
whoever is over 89 on any day of the record.
Times of day are left out; facts of one day keep their order, a minute apart from noon on.
People, staff and sites are random codes. Drugs are named by their ingredients, allergies by drug or group. Free text, and words
and codes that fewer than eleven people share, are left out.
`
