import "server-only"
import type { Caller } from "../access/caller"
import type { LetterTexts, WrittenTemplate } from "../domain/letter-template"
import { record } from "./audit"
import { actorOf } from "./audit-actors"
import type { PrismaClient } from "./generated/client"
import { namesSomebody } from "./names-somebody"

/** Every letter as it was written, earliest first. */
export async function listLetterTemplates(client: PrismaClient): Promise<WrittenTemplate[]> {
  return client.letterTemplate.findMany({ orderBy: { id: "asc" }, omit: { id: true } })
}

/**
 * Writes a letter over the version that was shown, 0 where there was none. One that somebody else wrote meanwhile, or
 * that names a patient, is not written.
 */
export async function writeLetterTemplate(
  client: PrismaClient,
  written: { texts: LetterTexts; language: string; shown: number; caller: Caller; now: Date },
): Promise<"written" | "outdated" | "names-person"> {
  const { texts, language, shown, caller, now } = written
  if (await namesSomebody(client, Object.values(texts).join("\n"))) return "names-person"
  return client.$transaction(async (transaction) => {
    const latest = await transaction.letterTemplate.aggregate({
      where: { language },
      _max: { version: true },
    })
    if ((latest._max.version ?? 0) !== shown) return "outdated"
    const made = { version: shown + 1, writtenBy: caller.name, writtenAt: now }
    const { count } = await transaction.letterTemplate.createMany({
      data: [{ language, ...texts, ...made }],
      skipDuplicates: true,
    })
    if (count === 0) return "outdated"
    await record(transaction, {
      ...{ by: actorOf(caller), action: "letter.write", object: "letter", objectId: language },
      detail: { version: made.version, isWithdrawn: texts.body === "" },
    })
    return "written"
  })
}
