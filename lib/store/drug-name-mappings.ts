import "server-only"
import { createHash } from "node:crypto"
import { changeAndRecord, type AuditEntry } from "./audit"
import type { Actor } from "./audit-actors"
import type { PrismaClient } from "./generated/client"

/** What a person said a drug text means: its ingredients, or that it is none that counts. */
export type DrugNameMapping = {
  text: string
  ingredients: string[]
  isIgnored: boolean
  createdAt: Date
}

export async function listDrugNameMappings(client: PrismaClient): Promise<DrugNameMapping[]> {
  return client.drugNameMapping.findMany({ orderBy: { createdAt: "desc" } })
}

/** Maps a text once for every order that has it; said again, it takes the place of what was said before. */
export async function saveDrugNameMapping(
  client: PrismaClient,
  mapping: { text: string; ingredients: string[]; isIgnored: boolean; by: Actor },
): Promise<void> {
  const { by, ...kept } = mapping
  const { text, ...said } = kept
  await changeAndRecord(
    client,
    (transaction) =>
      transaction.drugNameMapping.upsert({
        where: { text },
        create: kept,
        update: { ...said, createdAt: new Date() },
      }),
    () => ({
      ...{ by, action: "drug-text.map", ...named(text) },
      detail: { ingredients: said.ingredients.join(", "), isIgnored: said.isIgnored },
    }),
  )
}

/** Takes a mapping back; the text is listed for a person again. */
export async function removeDrugNameMapping(
  client: PrismaClient,
  mapping: { text: string; by: Actor },
): Promise<void> {
  const { text, by } = mapping
  await changeAndRecord(
    client,
    (transaction) => transaction.drugNameMapping.deleteMany({ where: { text } }),
    ({ count }) => (count === 0 ? null : { by, action: "drug-text.unmap", ...named(text) }),
  )
}

/** A text of an extract may name anybody, and the audit log forgets nothing: there it is named by its hash. */
function named(text: string): Pick<AuditEntry, "object" | "objectId"> {
  return {
    object: "drug text",
    objectId: createHash("sha256").update(text, "utf8").digest("hex").slice(0, 16),
  }
}
