import { z } from "zod"
import { wholeClinic } from "../access/scope"
import { lastDayOfMonth } from "../domain/plain-date"
import { definitionsHash } from "../engine/definitions"
import { askFigures } from "../engine/figures-of"
import { askOn } from "../engine/run"
import { withinScope } from "../engine/scoped"
import { snapshotMeta } from "../engine/snapshot-meta"
import type { Actor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import { listDrugNameMappings } from "../store/drug-name-mappings"
import { keepClosing } from "../store/month-closings"
import { readSettings } from "../store/settings"
import { isSnapshotStale } from "./snapshot-freshness"

export type ClosingAnswer = "closed" | "closed before" | "not complete" | "not of now"

/**
 * Closes a month with the figures on the screen, those of the snapshot built at `builtAt`. It is refused while they are not
 * of now, since what is known at this instant has to give the same figures again.
 */
export async function closeMonth(options: {
  client: PrismaClient
  dataDir: string
  asOf: string
  builtAt: string
  note: string
  by: Actor
  now: Date
}): Promise<ClosingAnswer> {
  const { client, dataDir, asOf, builtAt, note, by, now } = options
  const meta = await snapshotMeta(wholeClinic)
  if (!meta.asOfs.includes(asOf) || asOf !== lastDayOfMonth(asOf.slice(0, 7)) || asOf > meta.today)
    return "not complete"
  const { _max: last } = await client.import.aggregate({ _max: { id: true } })
  const settings = await readSettings(client)
  if (meta.builtAt !== builtAt || JSON.stringify(settings) !== JSON.stringify(meta.settings))
    return "not of now"
  if (await isSnapshotStale({ client, dataDir, now, areClosingsLeftOut: true })) return "not of now"
  const { mapped, figures } = await withinScope(wholeClinic, async (connection) => ({
    mapped: await askOn(connection, mappingsUsed),
    figures: await askFigures(connection, asOf),
  }))
  if (await isChangedUnseen(client, mapped)) return "not of now"
  const isKept = await keepClosing(client, {
    ...{ asOf, note, settings, figures, by, now },
    throughImport: last.id ?? 0,
    ...{ timeZone: meta.timeZone, definitions: definitionsHash() },
  })
  return isKept ? "closed" : "closed before"
}

/** An import that is storing, and a meaning of a drug text taken back, leave no mark later than the snapshot. */
async function isChangedUnseen(
  client: PrismaClient,
  mapped: readonly { text: string; ingredients: string; is_ignored: boolean }[],
): Promise<boolean> {
  const working = await client.import.findFirst({ where: { status: { in: ["running", "waiting"] } } })
  const mappings = await listDrugNameMappings(client)
  const inStore = mappings.map(({ text, ingredients, isIgnored }) =>
    JSON.stringify([text, ingredients.join(";"), isIgnored]),
  )
  const inSnapshot = mapped.map((one) => JSON.stringify([one.text, one.ingredients, one.is_ignored]))
  return working !== null || inStore.sort().join("\n") !== inSnapshot.sort().join("\n")
}

const mappingsUsed = {
  sql: `select m.text, array_to_string(m.ingredients, ';') as ingredients, m.is_ignored
from drug_name_mappings as m`,
  Row: z.object({ text: z.string(), ingredients: z.string(), is_ignored: z.boolean() }),
}
