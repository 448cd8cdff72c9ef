import "server-only"
import type pg from "pg"
import { z } from "zod"
import type { Ledger } from "../domain/ledgers"
import { canRestoreIndex, checkReferences, deferReferences, dropIndexInForce } from "./bulk-checks"
import { copyColumns } from "./copy-rows"
import type { CopySpool } from "./copy-spool"
import { noteReleased } from "./release-held"
import { mergeSql } from "./merge-sql"

export type Merging = {
  client: pg.Client
  ledger: Ledger
  importId: number
  knownAt: Date
  /** References may be checked over the whole table (see canDeferReferences). */
  canDefer: boolean
}

export type MergeRequest = {
  isFull: boolean
  heldRows: number
  retractedRows: number
  /** Retractions and rejected rows whose key could be read: state, key, line, is_numbered. */
  side: CopySpool
}

/** What became of the rows of one file; rows of unknown patients are counted as held whatever became of them. */
export type MergeCounts = {
  added: number
  changed: number
  unchanged: number
  withdrawn: number
  held: number
  moved: number
  olderKept: number
  replacedInOrder: number
  replacedLines: Replacement[]
  withdrawnByFull: number
  /** Facts of the kind that were in force before; counted for a full extract only. */
  inForceBefore: number
}

const Replacement = z.object({ line: z.number(), olderImport: z.number(), olderLine: z.number() })

type Replacement = z.infer<typeof Replacement>

const manyRows = 20_000
const manyContested = 2_000
const listedReplacements = 200

const nothing: MergeCounts = {
  ...{ added: 0, changed: 0, unchanged: 0, withdrawn: 0, held: 0, moved: 0, olderKept: 0 },
  ...{ replacedInOrder: 0, replacedLines: [], withdrawnByFull: 0, inForceBefore: 0 },
}

/**
 * Settles rows that went straight into an empty ledger: a row is new when no other shares its key and none retracts it. The
 * rest move to the staging table and are settled there.
 */
export async function mergeDirect(
  merging: Merging,
  { indexInForce, loadedRows }: { indexInForce: string; loadedRows: number },
  request: MergeRequest,
): Promise<MergeCounts> {
  const { client, ledger } = merging
  const { table } = ledger
  const isPlain = request.retractedRows === 0 && (await canRestoreIndex(client, indexInForce))
  if (!isPlain) {
    await refillSide(client, request.side)
    await stageContested(client, table)
    await client.query(indexInForce)
  }
  const settled = isPlain ? loadedRows : await countRows(client, table)
  await addIdentities(merging, table, request)
  await checkReferences(client, table)
  const contested = isPlain ? nothing : await mergeStaged(merging, { ...request, isFull: false })
  const settledHeld = request.heldRows - contested.held
  return { ...contested, added: contested.added + settled - settledHeld, held: request.heldRows }
}

/** Takes the rows out of the ledger whose key is not theirs alone. */
async function stageContested(client: pg.Client, table: string): Promise<void> {
  await client.query(
    `create temp table staged on commit drop as
     select l.* from ${table} l join (
       select key from ${table} group by key having count(*) > 1
       union
       select key from side where state = 'retracted'
     ) c on c.key = l.key`,
  )
  await client.query("analyze staged (line)")
  await client.query(
    `delete from ${table} l using staged s where l.import_id = s.import_id and l.line = s.line`,
  )
}

/** Holds the staged rows against the facts in force, ends what is superseded or withdrawn, and writes what is new. */
export async function mergeStaged(merging: Merging, request: MergeRequest): Promise<MergeCounts> {
  const { client, ledger, importId } = merging
  await client.query("truncate contested, verdicts, absent")
  await refillSide(client, request.side)
  const inForceBefore = request.isFull ? await countRows(client, `${ledger.table} where ended_at is null`) : 0
  await settleVerdicts(merging, request)
  const counts = { ...(await countVerdicts(merging, request)), ...(await listReplacements(merging)) }

  await endVersions(merging)
  await addIdentities(merging, "staged", request)
  await insertVersions(merging)
  const olderKept = await countRows(
    client,
    `side s where state = 'rejected' and exists (
       select from ${ledger.table} l where l.key = s.key and l.ended_at is null and l.import_id <> ${importId})`,
  )
  await client.query("drop table staged")
  return { ...nothing, ...counts, olderKept, inForceBefore }
}

async function refillSide(client: pg.Client, side: CopySpool): Promise<void> {
  await client.query("truncate side")
  await side.copyInto(client, "side (state, key, line, is_numbered)")
}

async function settleVerdicts({ client, ledger }: Merging, { isFull }: MergeRequest): Promise<void> {
  const sql = mergeSql(ledger)
  await client.query("analyze staged (key)")
  await client.query(sql.contested)
  await client.query("analyze contested")
  // The steps of a contest have no statistics; with many rows the planner must not guess that a loop will do.
  const isLarge = (await countRows(client, "contested")) > manyContested
  if (isLarge) await client.query("set local enable_nestloop = off")
  for (const statement of sql.verdicts) await client.query(statement)
  if (isLarge) await client.query("set local enable_nestloop = on")
  await client.query("analyze verdicts")
  if (isFull) await client.query(sql.absent)
}

const VerdictCount = z.object({
  verdict: z.enum(["added", "changed", "unchanged", "withdrawn"]),
  rows: z.number(),
  held: z.number(),
  moved: z.number(),
})

async function countVerdicts({ client }: Merging, { heldRows }: MergeRequest) {
  const owners = `
    left join staged s on s.line = v.line
    left join patient_records p on p.patient_id = s.patient_id and p.ended_at is null`
  const isHeld = "s.line is not null and p.patient_id is null"
  const result = await client.query(
    `select v.verdict, count(*)::int as rows,
       count(*) filter (where v.verdict = 'changed' and v.is_moved)::int as moved,
       count(*) filter (where ${heldRows > 0 ? isHeld : "false"})::int as held
     from verdicts v ${heldRows > 0 ? owners : ""}
     group by v.verdict`,
  )
  const counts = { added: 0, changed: 0, unchanged: 0, withdrawn: 0, held: 0, moved: 0 }
  for (const { verdict, rows, held, moved } of z.array(VerdictCount).parse(result.rows)) {
    counts[verdict] += rows - held
    counts.held += held
    counts.moved += moved
  }
  return { ...counts, withdrawnByFull: await countRows(client, "absent") }
}

async function listReplacements({ client, ledger }: Merging) {
  if (!ledger.numberedWithout) return { replacedInOrder: 0, replacedLines: [] }
  const replaced = `verdicts v join staged s on s.line = v.line
    where v.verdict = 'changed' and s.${ledger.numberedWithout} is null`
  const result = await client.query(
    `select v.line, v.old_import as "olderImport", v.old_line as "olderLine"
     from ${replaced} order by v.line limit ${listedReplacements}`,
  )
  return {
    replacedInOrder: await countRows(client, replaced),
    replacedLines: z.array(Replacement).parse(result.rows),
  }
}

async function endVersions({ client, ledger, importId, knownAt }: Merging): Promise<void> {
  await client.query(
    `update ${ledger.table} l set ended_at = $1, ended_by = $2,
       end_reason = case v.verdict when 'withdrawn' then 'withdrawn' else 'superseded' end
     from verdicts v
     where v.verdict in ('changed', 'withdrawn') and l.import_id = v.old_import and l.line = v.old_line`,
    [knownAt, importId],
  )
  await client.query(
    `update ${ledger.table} l set ended_at = $1, ended_by = $2, end_reason = 'withdrawn'
     from absent a where l.import_id = a.import_id and l.line = a.line`,
    [knownAt, importId],
  )
}

/** Everyone whom a row names has an identity; only new patients and unknown ones can lack it. */
async function addIdentities(merging: Merging, from: string, { heldRows }: MergeRequest): Promise<void> {
  const { client, ledger } = merging
  if (ledger.kind === "patients") await noteReleased(merging, from)
  if (ledger.kind === "patients" || heldRows > 0)
    await client.query(
      `insert into patients (patient_id) select distinct patient_id from ${from} on conflict do nothing`,
    )
}

async function insertVersions({ client, ledger, canDefer }: Merging): Promise<void> {
  const { table } = ledger
  const isNew = "verdicts v on v.line = s.line and v.verdict in ('added', 'changed')"
  const columns = copyColumns(ledger)
  const own = columns.map((name) => `s.${name}`).join(", ")
  const insert = ledger.numberedWithout
    ? `insert into ${table} (${columns.join(", ")}, occurrence)
       select ${own}, v.occurrence from staged s join ${isNew}`
    : `insert into ${table} (${columns.join(", ")}) select ${own} from staged s join ${isNew}`
  const rows = await countRows(client, "verdicts where verdict in ('added', 'changed')")
  const isLarge = rows > manyRows && rows > (await countRows(client, table)) / 10
  if (!isLarge || !canDefer) {
    await client.query(insert)
    return
  }
  const indexInForce = await dropIndexInForce(client, table)
  await deferReferences(client)
  await client.query(insert)
  await client.query(indexInForce)
  await checkReferences(client, table)
}

async function countRows(client: pg.Client, from: string): Promise<number> {
  const result = await client.query(`select count(*)::int as rows from ${from}`)
  return z.object({ rows: z.number() }).parse(result.rows[0]).rows
}
