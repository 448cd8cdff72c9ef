import "server-only"
import type { PrismaClient } from "./generated/client"

const unnamed = "Kidney clinic"

/** Makes the clinic's one row at the first start; later its time zone changes only when one is asked for. */
export async function ensureClinic(
  client: PrismaClient,
  zone: { asked: string | undefined; machine: string },
): Promise<void> {
  const clinic = await client.clinic.findUnique({ where: { id: 1 } })
  if (!clinic) {
    const data = { id: 1, name: unnamed, timeZone: zone.asked ?? zone.machine }
    await client.clinic.createMany({ data: [data], skipDuplicates: true })
  } else if (zone.asked && zone.asked !== clinic.timeZone) {
    await client.clinic.update({ where: { id: 1 }, data: { timeZone: zone.asked } })
  }
}

/** Whether nothing was ever brought in, so that the demo clinic disturbs nobody. */
export async function isStoreEmpty(client: PrismaClient): Promise<boolean> {
  const [patients, staff] = await Promise.all([client.patient.findFirst(), client.staff.findFirst()])
  return patients === null && staff === null
}

export async function markAsDemo(client: PrismaClient, name: string): Promise<void> {
  await client.clinic.update({ where: { id: 1 }, data: { name, isDemo: true } })
}

/** Notes that the one extract the clinic holds is the invented one. */
export async function markImportsAsDemo(client: PrismaClient): Promise<void> {
  await client.import.updateMany({ data: { isDemo: true } })
}
