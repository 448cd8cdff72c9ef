import "server-only"
import type { Caller } from "../access/caller"
import type { ChosenBaseline } from "../domain/chart-marks"
import { plainToday } from "../domain/plain-date"
import { changeAndRecord } from "./audit"
import { actorOf } from "./audit-actors"
import type { PrismaClient } from "./generated/client"
import { undoMark } from "./undo-mark"

/** The baseline that stands for each measure somebody set one for. */
export async function listChosenBaselines(
  client: PrismaClient,
): Promise<ReadonlyMap<string, ChosenBaseline>> {
  const [clinic, rows] = await Promise.all([
    client.clinic.findUnique({ where: { id: 1 } }),
    client.chartBaseline.findMany({ where: { undoneAt: null }, orderBy: { id: "asc" } }),
  ])
  const zone = clinic?.timeZone ?? "UTC"
  return new Map(
    rows.map(({ id, measureId, fromMonth, reason, madeBy, madeAt }) => [
      measureId,
      { id, measureId, fromMonth, reason, madeBy, madeOn: plainToday(madeAt, zone) },
    ]),
  )
}

/** Puts a year in the place of a measure's baseline, with the reason; the one before stays on record as undone. */
export async function setBaseline(
  client: PrismaClient,
  chosen: { measureId: string; fromMonth: string; reason: string; caller: Caller; now: Date },
): Promise<void> {
  const { measureId, fromMonth, reason, caller, now } = chosen
  await changeAndRecord(
    client,
    async (transaction) => {
      await transaction.$queryRaw`select id from clinics where id = 1 for update`
      await transaction.chartBaseline.updateMany({
        where: { measureId, undoneAt: null },
        data: { undoneAt: now, undoneBy: caller.name },
      })
      return transaction.chartBaseline.create({
        data: { measureId, fromMonth, reason, madeBy: caller.name, madeAt: now },
      })
    },
    ({ id }) => ({
      ...{ by: actorOf(caller), action: "baseline.set", object: "baseline", objectId: String(id) },
      detail: { measure: measureId, from: fromMonth },
    }),
  )
}

/** Takes the baseline of a measure back, so that the first year shown stands again; false when there is none to take. */
export function undoBaseline(
  client: PrismaClient,
  which: { id: number; caller: Caller; now: Date },
): Promise<boolean> {
  return undoMark(client, {
    ...{ ...which, action: "baseline.undo", object: "baseline" },
    undo: (transaction, rows) => transaction.chartBaseline.updateMany(rows),
  })
}
