import "server-only"
import type { Prisma } from "./generated/client"

/** The clinic's own number of the record with an opaque id; null when there is none. */
export async function findPatientId(
  client: Prisma.TransactionClient,
  publicId: string,
): Promise<string | null> {
  const patient = await client.patient.findUnique({ where: { publicId } })
  return patient?.patientId ?? null
}

/** The names of people by opaque id, as their records in force have them; who is out of scope or unnamed is left out. */
export async function findNames(
  client: Prisma.TransactionClient,
  publicIds: readonly string[],
): Promise<Map<string, string>> {
  const records = await client.patientRecord.findMany({
    where: { endedAt: null, patient: { publicId: { in: [...new Set(publicIds)] } } },
    select: { givenName: true, familyName: true, patient: { select: { publicId: true } } },
  })
  const named = records.map(({ givenName, familyName, patient }) => {
    const name = [familyName, givenName].filter(Boolean).join(", ")
    return [patient.publicId, name] as const
  })
  return new Map(named.filter(([, name]) => name !== ""))
}
