import "server-only"
import type pg from "pg"
import { z } from "zod"
import type { Ledger } from "../domain/ledgers"
import type { CopySpool } from "./copy-spool"
import type { Merging } from "./bulk-merge"

/**
 * Notes the patients whom this import makes known and whom earlier rows had named already: the facts held for them count
 * from now on. To be asked before their identities are written.
 */
export async function noteReleased({ client, importId }: Merging, from: string): Promise<void> {
  await client.query(
    `insert into released
     select distinct s.patient_id from ${from} s join patients p on p.patient_id = s.patient_id
     where not exists (
       select from patient_records r where r.patient_id = s.patient_id and r.import_id <> $1
         and (r.ended_at is null or r.ended_by = $1))`,
    [importId],
  )
}

const Released = z.object({
  import_id: z.number(),
  line: z.number(),
  column_name: z.string(),
  value: z.string(),
  original: z.string(),
})

/**
 * A held fact is checked against the patient's birth when that becomes known. One that lies before it ends as rejected, and
 * is listed under the file and line it came with. Returns how many.
 */
export async function rejectReleased(
  client: pg.Client,
  options: { ledger: Ledger; importId: number; knownAt: Date; timeZone: string; rejects: CopySpool },
): Promise<number> {
  const { ledger, importId, knownAt, timeZone, rejects } = options
  let rejected = 0
  const someone = await client.query("select from released limit 1")
  for (const column of someone.rowCount === 0 ? [] : ledger.events) {
    const isInstant = ledger.columns.some(([name, type]) => name === column && type === "instant")
    const day = isInstant ? `(l.${column} at time zone $3)::date` : `l.${column}`
    const result = await client.query(
      `update ${ledger.table} l set ended_at = $1, ended_by = $2, end_reason = 'rejected'
       from released d join patient_records p on p.patient_id = d.patient_id and p.ended_at is null
       where l.patient_id = d.patient_id and l.ended_at is null and l.import_id <> $2
         and ${day} < p.birth_date and $3::text is not null
       returning l.import_id, l.line, '${column}' as column_name, ${day}::text as value,
         (to_jsonb(l) - array['key', 'hash', 'known_at', 'ended_at', 'ended_by', 'end_reason'])::text as original`,
      [knownAt, importId, timeZone],
    )
    for (const row of z.array(Released).parse(result.rows)) {
      const message = `lies before the patient's birth; the row came with import ${row.import_id} and was held until now`
      rejects.add([
        ...[importId, `${ledger.kind}.csv`, row.line, row.column_name, row.value],
        ...["before-birth", message, row.original],
      ])
      rejected += 1
    }
  }
  return rejected
}
