import "server-only"
import { z } from "zod"
import type { FactKind } from "../domain/fact-kinds"
import { ledgers } from "../domain/ledgers"
import type { Prisma } from "./generated/client"

/** One row of an extract as the ledger keeps it, with every version of the same fact, latest first. */
export type SourceRow = {
  cells: { column: string; value: string | null }[]
  /** The person it speaks of, in addresses; null for staff and while no record in force knows the patient. */
  publicId: string | null
  versions: SourceVersion[]
}

export type SourceVersion = {
  importId: number
  line: number
  knownAt: Date
  endedAt: Date | null
  endedBy: number | null
  endReason: string | null
}

const Version = z.object({
  import_id: z.number(),
  line: z.number(),
  known_at: z.date(),
  ended_at: z.date().nullable(),
  ended_by: z.number().nullable(),
  end_reason: z.string().nullable(),
})

const Cells = z.object({
  cells: z.record(z.string(), z.string().nullable()),
  patient_id: z.string().nullable(),
})

/** The row that one line of one import brought; null when it brought none that is kept. Instants on the clinic's clock. */
export async function findSourceRow(
  client: Prisma.TransactionClient,
  place: { kind: FactKind; importId: number; line: number; timeZone: string },
): Promise<SourceRow | null> {
  const { table, columns } = ledgers[place.kind]
  const shown = columns.map(([name, type]) => {
    const value =
      type === "instant" ? `to_char(${name} at time zone $3, 'YYYY-MM-DD HH24:MI')` : `${name}::text`
    return `'${name}', ${value}`
  })
  const hasPatient = columns.some(([name]) => name === "patient_id")
  const rows = await client.$queryRawUnsafe(
    `select json_build_object(${shown.join(", ")}) as cells, ${hasPatient ? "patient_id" : "null"} as patient_id
     from ${table} where import_id = $1 and line = $2 and $3::text is not null`,
    place.importId,
    place.line,
    place.timeZone,
  )
  const row = z.array(Cells).parse(rows)[0]
  if (!row) return null
  const patient = row.patient_id
    ? await client.patient.findUnique({
        where: { patientId: row.patient_id, records: { some: { endedAt: null } } },
      })
    : null
  return {
    cells: Object.entries(row.cells).map(([column, value]) => ({ column, value })),
    publicId: patient?.publicId ?? null,
    versions: await listVersions(client, place),
  }
}

async function listVersions(
  client: Prisma.TransactionClient,
  { kind, importId, line }: { kind: FactKind; importId: number; line: number },
): Promise<SourceVersion[]> {
  const { table, numberedWithout } = ledgers[kind]
  const sameOccurrence = numberedWithout ? "and other.occurrence = own.occurrence" : ""
  const rows = await client.$queryRawUnsafe(
    `select other.import_id, other.line, other.known_at, other.ended_at, other.ended_by, other.end_reason
     from ${table} as own
     join ${table} as other on other.key = own.key ${sameOccurrence}
     where own.import_id = $1 and own.line = $2
     order by other.known_at desc, other.import_id desc, other.line desc`,
    importId,
    line,
  )
  return z
    .array(Version)
    .parse(rows)
    .map((row) => ({
      importId: row.import_id,
      line: row.line,
      knownAt: row.known_at,
      endedAt: row.ended_at,
      endedBy: row.ended_by,
      endReason: row.end_reason,
    }))
}

/** A line that was rejected, as the extract had it. */
export async function findRejectedLine(
  client: Prisma.TransactionClient,
  place: { file: string; importId: number; line: number },
): Promise<{ original: string; column: string | null; message: string } | null> {
  const row = await client.rejectedRow.findFirst({
    where: { importId: place.importId, file: place.file, line: place.line },
    orderBy: { id: "asc" },
  })
  return row && { original: row.original, column: row.columnName, message: row.message }
}
