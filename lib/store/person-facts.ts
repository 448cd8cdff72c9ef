import "server-only"
import { z } from "zod"
import { factKinds, type FactKind } from "../domain/fact-kinds"
import { ledgers, type ColumnType, type Ledger } from "../domain/ledgers"
import type { Prisma } from "./generated/client"

/** Facts of one kind as the extract's own file would have them, each with where it came from. */
export type PersonFile = {
  kind: FactKind
  columns: readonly string[]
  /** The versions that count now, and those that were superseded or withdrawn. */
  inForce: readonly FactCells[]
  earlier: readonly FactCells[]
}

export type FactCells = readonly (string | null)[]

/** Where a version came from, and how long it counted; columns that an import passes over. */
const provenance: readonly (readonly [name: string, sql: string])[] = [
  ["import_number", "l.import_id::text"],
  ["import_source", "i.source"],
  ["import_line", "l.line::text"],
  ["known_from", instant("l.known_at")],
  ["known_until", instant("l.ended_at")],
  ["ended_because", "l.end_reason"],
]

/** What the ledger of results keeps beside the columns of the extract. */
const ofResultsAlone = ["loinc", "is_used", "comparator", "value", "number", "unit"]
const renamed: Readonly<Record<string, string>> = {
  value_text: "value",
  unit_text: "unit",
  is_haemolysed: "haemolysed",
}

/** Every version of every fact under these records, and the staff whom they name; instants on the clinic's clock. */
export async function readPersonFacts(
  client: Prisma.TransactionClient,
  of: { patientIds: readonly string[]; timeZone: string },
): Promise<PersonFile[]> {
  await client.$queryRaw`select set_config('TimeZone', ${of.timeZone}, true)`
  const files: PersonFile[] = []
  for (const kind of factKinds) files.push(await readFile(client, kind, of.patientIds))
  return files
}

const Row = z.object({ cells: z.array(z.string().nullable()), is_in_force: z.boolean() })

async function readFile(
  client: Prisma.TransactionClient,
  kind: FactKind,
  patientIds: readonly string[],
): Promise<PersonFile> {
  const ledger = ledgers[kind]
  const columns = [...columnsOf(ledger), ...provenance]
  const rows = await client.$queryRawUnsafe(
    `select array[${columns.map(([, sql]) => sql).join(", ")}] as cells, l.ended_at is null as is_in_force
     from ${ledger.table} as l join imports as i on i.id = l.import_id
     where ${kind === "staff" ? `l.ended_at is null and l.staff_id in (${namedStaff})` : "l.patient_id = any ($1::text[])"}
     order by l.import_id, l.line`,
    patientIds,
  )
  const facts = z.array(Row).parse(rows)
  return {
    ...{ kind, columns: columns.map(([name]) => name) },
    inForce: facts.filter((row) => row.is_in_force).map((row) => row.cells),
    earlier: facts.filter((row) => !row.is_in_force).map((row) => row.cells),
  }
}

const namedStaff = factKinds
  .map((kind) => ledgers[kind])
  .filter((ledger) => ledger.columns.some(([name]) => name === "clinician_id"))
  .map((ledger) => `select clinician_id from ${ledger.table} where patient_id = any ($1::text[])`)
  .join(" union ")

function columnsOf({ kind, columns }: Ledger): (readonly [name: string, sql: string])[] {
  return columns
    .filter(([name]) => name !== "is_date_only" && !(kind === "labs" && ofResultsAlone.includes(name)))
    .map(([name, type]) => [renamed[name] ?? name, sqlOf(kind, { name, type })])
}

function sqlOf(kind: FactKind, { name, type }: { name: string; type: ColumnType }): string {
  if (kind === "labs" && name === "test") return "coalesce(l.loinc, l.test)"
  if (type === "instant")
    return `case when l.is_date_only then to_char(l.${name}, 'YYYY-MM-DD') else ${instant(`l.${name}`)} end`
  return `l.${name}::text`
}

function instant(column: string): string {
  return `to_char(${column}, 'YYYY-MM-DD"T"HH24:MI:SSTZH:TZM')`
}
