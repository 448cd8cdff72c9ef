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
