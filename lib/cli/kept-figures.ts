import { lastDayOfMonth } from "../domain/plain-date"
import { AppError } from "../errors"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { print } from "./print"
import { say } from "./say"

/** Prints, as JSON, what `measures` said of a closed month before an erasure was carried out. */
export async function printKept(request: string, { month }: { month?: string }): Promise<void> {
  if (!/^\d{1,9}$/.test(request)) throw new AppError("bad-request", "--kept takes the number of an erasure.")
  if (month === undefined || !/^\d{4}-(0[1-9]|1[0-2])$/.test(month))
    throw new AppError("bad-request", "--kept goes with a --month like 2026-10.")
  const on = lastDayOfMonth(month)
  const database = await openDatabase({ say })
  const client = openClient(database.url)
  try {
    const which = { erasureId: Number(request), asOf: new Date(`${on}T00:00:00Z`) }
    const kept = await client.keptFigures.findUnique({ where: { erasureId_asOf: which } })
    if (!kept) throw new AppError("not-found", "No figures of this month were kept for this erasure.")
    await print(JSON.stringify({ on, measures: kept.figures }))
  } finally {
    await client.$disconnect()
    await database.close()
  }
}
