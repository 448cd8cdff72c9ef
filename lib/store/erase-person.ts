import "server-only"
import type { Settings } from "../domain/settings"
import { record } from "./audit"
import type { Actor } from "./audit-actors"
import { numberHash } from "./erased-numbers"
import type { Prisma, PrismaClient } from "./generated/client"
import { wordPattern, wordsOfPerson, type PersonWords } from "./person-words"
import { patientTables } from "./rights"

/** The figures of one closed month, as they are to be kept. */
export type KeptMonth = { asOf: string; figures: Prisma.InputJsonValue }

const patience = { maxWait: 30_000, timeout: 30 * 60_000 } as const

/** The ledgers first: their rows name the patient. */
const tables = patientTables.filter((table) => table !== "patients")

/**
 * Takes every row about a person out of the record store, in one transaction: all versions of all facts under all their
 * numbers, the text of rejected rows that name them, and what a person mapped for a text that is theirs alone. It leaves a
 * hash of each number, the figures of the closed months, and the opaque ids in the audit log. For the owner of the tables.
 */
export async function erasePerson(
  client: PrismaClient,
  options: {
    erasureId: number
    records: readonly { patientId: string; publicId: string }[]
    drugTexts: readonly string[]
    months: readonly KeptMonth[]
    settings: Settings
    key: Buffer
    by: Actor
    now: Date
  },
): Promise<void> {
  const { erasureId, records, drugTexts, months, settings, key, by, now } = options
  const patientIds = records.map((one) => one.patientId)
  await client.$transaction(async (transaction) => {
    const words = await wordsOfPerson(transaction, patientIds)
    await transaction.erasedNumber.createMany({
      data: patientIds.map((one) => ({ numberHash: numberHash(key, one), erasureId })),
      skipDuplicates: true,
    })
    await transaction.keptFigures.createMany({
      data: months.map(({ asOf, figures }) => ({ erasureId, asOf: new Date(`${asOf}T00:00:00Z`), figures })),
    })
    const facts = await deleteFacts(transaction, patientIds)
    const texts = await blankTexts(transaction, words)
    await transaction.drugNameMapping.deleteMany({ where: { text: { in: [...drugTexts] } } })
    await transaction.$executeRaw`
      update month_closings set mappings = coalesce((
        select jsonb_agg(said.one) from jsonb_array_elements(mappings) as said (one)
        where said.one ->> 'text' <> all (${[...drugTexts]}::text[])), '[]'::jsonb)`
    await transaction.erasure.update({
      where: { id: erasureId },
      data: { erasedAt: now, erasedBy: by.actorName, settings },
    })
    await record(transaction, {
      ...{ by, action: "record.erase", object: "erasure", objectId: String(erasureId) },
      ...{ people: records.map((one) => one.publicId), detail: { facts, rejectedTexts: texts } },
    })
  }, patience)
}

async function deleteFacts(
  transaction: Prisma.TransactionClient,
  patientIds: readonly string[],
): Promise<number> {
  // A record that once was merged into the person, or closes a circle with it, is somebody else's.
  await transaction.$executeRaw`
    update patient_records set merged_into = null
    where merged_into = any (${[...patientIds]}::text[]) and patient_id <> all (${[...patientIds]}::text[])`
  let facts = 0
  for (const table of tables)
    facts += await transaction.$executeRawUnsafe(
      `delete from ${table} where patient_id = any ($1::text[])`,
      patientIds,
    )
  await transaction.$executeRaw`delete from patients where patient_id = any (${[...patientIds]}::text[])`
  return facts
}

/** The text of rows that were rejected, and reasons that somebody typed, where they name the person. */
async function blankTexts(transaction: Prisma.TransactionClient, words: PersonWords): Promise<number> {
  const direct = [...words.numbers, ...words.addresses].map(wordPattern)
  const given = words.givenNames.map(wordPattern)
  const family = words.familyNames.map(wordPattern)
  const rows = await transaction.$executeRaw`
    update rejected_rows set original = '', value = null
    where original ~* any (${direct}::text[])
      or (original ~* any (${given}::text[]) and original ~* any (${family}::text[]))`
  // One statement each, so that a closing whose note alone names the person keeps the reason it was reopened for.
  for (const column of ["note", "reopen_reason"])
    await transaction.$executeRawUnsafe(
      `update month_closings set ${column} = 'named a person whose record was erased'
       where ${column} ~* any ($1::text[]) or ${column} ~* any ($2::text[])`,
      direct,
      family,
    )
  await transaction.$executeRaw`
    update emergency_accesses set reason = 'named a person whose record was erased'
    where reason ~* any (${direct}::text[]) or reason ~* any (${family}::text[])`
  await transaction.$executeRaw`
    update chart_notes set text = 'named a person whose record was erased'
    where text ~* any (${direct}::text[]) or text ~* any (${family}::text[])`
  await transaction.$executeRaw`
    update measure_actions set text = 'named a person whose record was erased', outcome = null
    where concat_ws(' ', text, outcome) ~* any (${direct}::text[])
      or concat_ws(' ', text, outcome) ~* any (${family}::text[])`
  await transaction.$executeRaw`
    update outreach_events set note = 'named a person whose record was erased'
    where note ~* any (${direct}::text[]) or note ~* any (${family}::text[])`
  await transaction.$executeRaw`
    update clinician_decisions set note = 'named a person whose record was erased'
    where note ~* any (${direct}::text[]) or note ~* any (${family}::text[])`
  await transaction.$executeRaw`
    update chart_baselines set reason = 'named a person whose record was erased'
    where reason ~* any (${direct}::text[]) or reason ~* any (${family}::text[])`
  return rows
}
