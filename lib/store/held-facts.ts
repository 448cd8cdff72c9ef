import "server-only"
import { z } from "zod"
import { factKinds, type FactKind } from "../domain/fact-kinds"
import { ledgers } from "../domain/ledgers"
import type { Scope } from "../access/scope"
import type { Prisma, PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

/** A fact kept aside because no record in force knows its patient; named by the row of the extract that brought it. */
export type HeldFact = { kind: FactKind; importId: number; line: number; patientId: string; knownAt: Date }

/** A LOINC code on no list: its results are kept and not used until a person maps it. */
export type UnlistedLoinc = { code: string; rows: number; patients: number }

const HeldRow = z.object({
  kind: z.enum(factKinds),
  import_id: z.number(),
  line: z.number(),
  patient_id: z.string(),
  known_at: z.date(),
})

const heldKinds = factKinds.filter((kind) => kind !== "staff" && kind !== "patients")

const unknownPatients = `
  select i.patient_id from patients i
  where not exists (select from patient_records r where r.patient_id = i.patient_id and r.ended_at is null)`

const heldOfKind = heldKinds.map(
  (kind) => `
    select '${kind}' as kind, l.import_id, l.line, l.patient_id, l.known_at
    from ${ledgers[kind].table} l join unknown u on u.patient_id = l.patient_id
    where l.ended_at is null`,
)

const held = `with unknown as materialized (${unknownPatients}), held as (${heldOfKind.join(" union all ")})`

/**
 * Facts that are held, oldest first. Null while an import has a ledger for itself, which lasts seconds: ask again then.
 */
export async function listHeldFacts(
  client: PrismaClient,
  page: { scope: Scope; take: number; skip: number },
): Promise<{ total: number; facts: HeldFact[] } | null> {
  return inScopeUnlessLocked(client, page.scope, async (transaction) => {
    const totals = await transaction.$queryRawUnsafe(`${held} select count(*)::int as total from held`)
    const rows = await transaction.$queryRawUnsafe(
      `${held} select * from held order by import_id, kind, line limit $1 offset $2`,
      page.take,
      page.skip,
    )
    const facts = z.array(HeldRow).parse(rows)
    return {
      total: z.array(z.object({ total: z.number() })).parse(totals)[0]?.total ?? 0,
      facts: facts.map((row) => ({
        kind: row.kind,
        importId: row.import_id,
        line: row.line,
        patientId: row.patient_id,
        knownAt: row.known_at,
      })),
    }
  })
}

/** A person decides that a held fact is of no use. False when it is held no longer. */
export async function discardHeldFact(
  client: Prisma.TransactionClient,
  fact: { kind: FactKind; importId: number; line: number },
): Promise<boolean> {
  if (fact.kind === "staff" || fact.kind === "patients") return false
  const discarded = await client.$executeRawUnsafe(
    `update ${ledgers[fact.kind].table} l set ended_at = now(), end_reason = 'discarded'
     where l.import_id = $1 and l.line = $2 and l.ended_at is null and l.patient_id in (${unknownPatients})`,
    fact.importId,
    fact.line,
  )
  return discarded === 1
}

/** LOINC codes to be mapped, the most frequent first; null while an import has the results for itself. */
export async function listUnlistedLoinc(client: PrismaClient, scope: Scope): Promise<UnlistedLoinc[] | null> {
  const Row = z.object({ code: z.string(), rows: z.number(), patients: z.number() })
  return inScopeUnlessLocked(client, scope, async (transaction) => {
    const rows = await transaction.$queryRawUnsafe(
      `select test as code, count(*)::int as rows, count(distinct patient_id)::int as patients
       from lab_results where not is_used and ended_at is null
       group by test order by rows desc, code`,
    )
    return z.array(Row).parse(rows)
  })
}

const impatient = "set local lock_timeout = '250ms'"
const lockNotAvailable = /55P03|lock timeout/

async function inScopeUnlessLocked<Answer>(
  client: PrismaClient,
  scope: Scope,
  ask: (transaction: Prisma.TransactionClient) => Promise<Answer>,
): Promise<Answer | null> {
  try {
    return await inScope(client, scope, async (transaction) => {
      await transaction.$executeRawUnsafe(impatient)
      return ask(transaction)
    })
  } catch (error) {
    if (error instanceof Error && lockNotAvailable.test(`${error.message} ${JSON.stringify(error)}`))
      return null
    throw error
  }
}
