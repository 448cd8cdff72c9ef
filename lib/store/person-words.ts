import "server-only"
import type { Prisma } from "./generated/client"

/** What a text could name a person by: every number, name, telephone number and address their records ever had. */
export type PersonWords = {
  numbers: readonly string[]
  givenNames: readonly string[]
  familyNames: readonly string[]
  addresses: readonly string[]
}

export async function wordsOfPerson(
  client: Prisma.TransactionClient,
  patientIds: readonly string[],
): Promise<PersonWords> {
  const records = await client.patientRecord.findMany({
    where: { patientId: { in: [...patientIds] } },
    select: { givenName: true, familyName: true, phone: true, email: true },
  })
  return {
    numbers: patientIds,
    givenNames: words(records.map((record) => record.givenName)),
    familyNames: words(records.map((record) => record.familyName)),
    addresses: words(records.flatMap((record) => [record.phone, record.email])),
  }
}

/** Whether a text has one of the words, standing for itself, in any case; words of one or two letters name nobody. */
export function namesPerson(text: string, names: readonly string[]): boolean {
  return names.some((name) => name.length > 2 && new RegExp(wordPattern(name), "iu").test(text))
}

/** A regular expression, as Postgres and the program read it, that finds a text where it stands for itself. */
export function wordPattern(text: string): string {
  return `(^|[^A-Za-z0-9])${text.replace(/[\\^$.|?*+()[\]{}]/g, "\\$&")}($|[^A-Za-z0-9])`
}

function words(found: readonly (string | null)[]): string[] {
  return [...new Set(found.flatMap((word) => (word === null || word === "" ? [] : [word])))]
}
