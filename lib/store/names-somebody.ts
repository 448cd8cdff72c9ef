import "server-only"
import { wholeClinic } from "../access/scope"
import type { PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

/** Words of which a whole name may be made. */
const longestName = 6

/**
 * Whether a text names a patient: a number of one, or the given and the family name of one person side by side, in any
 * case. A name by itself is let through, since April and Brown are words, too.
 */
export async function namesSomebody(client: PrismaClient, text: string): Promise<boolean> {
  const phrases = phrasesOf(text)
  const found = await inScope(
    client,
    wholeClinic,
    (transaction) => transaction.$queryRaw<unknown[]>`
      select 1 from patient_records
      where lower(patient_id) = any (${phrases}::text[])
        or lower(given_name || ' ' || family_name) = any (${phrases}::text[])
        or lower(family_name || ' ' || given_name) = any (${phrases}::text[])
      limit 1`,
  )
  return found.length > 0
}

/** Every run of words of a text that could be a name, in small letters. */
function phrasesOf(text: string): string[] {
  const words = text
    .toLowerCase()
    .split(/[^\p{L}\p{M}\p{N}'’._/-]+/u)
    .map((word) => word.replace(/^[.'’/-]+|[.'’/-]+$/g, ""))
    .filter((word) => word !== "")
  return words.flatMap((_, from) =>
    Array.from({ length: longestName }, (__, more) => words.slice(from, from + more + 1).join(" ")),
  )
}
