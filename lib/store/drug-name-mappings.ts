import "server-only"
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
  mapping: { text: string; ingredients: string[]; isIgnored: boolean },
): Promise<void> {
  const { text, ...said } = mapping
  await client.drugNameMapping.upsert({
    where: { text },
    create: mapping,
    update: { ...said, createdAt: new Date() },
  })
}

/** Takes a mapping back; the text is listed for a person again. */
export async function removeDrugNameMapping(client: PrismaClient, text: string): Promise<void> {
  await client.drugNameMapping.deleteMany({ where: { text } })
}
