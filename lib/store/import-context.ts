import "server-only"
import type pg from "pg"
import { z } from "zod"
import { Settings } from "../domain/settings"

/** What an import must know of the clinic before it reads a file. */
export async function readImportContext(
  client: pg.Client,
): Promise<{ timeZone: string | null; settings: Settings }> {
  const clinics = await client.query("select time_zone from clinics limit 1")
  const settings = await client.query("select key, value from settings")
  const clinic = z.object({ time_zone: z.string() }).optional().parse(clinics.rows[0])
  const stored = z.array(z.object({ key: z.string(), value: z.json() })).parse(settings.rows)
  return {
    timeZone: clinic?.time_zone ?? null,
    settings: Settings.parse(Object.fromEntries(stored.map(({ key, value }) => [key, value]))),
  }
}

/** The birth days, as days since 1970, of all patients with a record in force. */
export async function readBirths(client: pg.Client): Promise<Map<string, number>> {
  const births = new Map<string, number>()
  await readInBatches(
    client,
    "select patient_id as id, (birth_date - date '1970-01-01') as value from patient_records where ended_at is null",
    (id, value) => births.set(id, Number(value)),
  )
  return births
}

export async function readStaffIds(client: pg.Client): Promise<Set<string>> {
  const ids = new Set<string>()
  await readInBatches(
    client,
    "select staff_id as id, null as value from staff where ended_at is null",
    (id) => ids.add(id),
  )
  return ids
}

/** Whom each patient is merged into, of all records in force that name someone. */
export async function readSurvivors(client: pg.Client): Promise<Map<string, string>> {
  const survivors = new Map<string, string>()
  await readInBatches(
    client,
    `select patient_id as id, merged_into as value from patient_records
     where ended_at is null and merged_into is not null`,
    (id, value) => survivors.set(id, String(value)),
  )
  return survivors
}

async function readInBatches(
  client: pg.Client,
  sql: string,
  take: (id: string, value: unknown) => void,
): Promise<void> {
  const Row = z.object({ id: z.string(), value: z.unknown() })
  await client.query(`declare batches no scroll cursor for ${sql}`)
  for (;;) {
    const batch = await client.query("fetch 20000 from batches")
    for (const row of batch.rows) {
      const { id, value } = Row.parse(row)
      take(id, value)
    }
    if (batch.rows.length === 0) break
  }
  await client.query("close batches")
}
