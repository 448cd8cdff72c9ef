import "server-only"
import type { Caller } from "../access/caller"
import type { ChartNote } from "../domain/chart-marks"
import { changeAndRecord } from "./audit"
import { actorOf } from "./audit-actors"
import type { PrismaClient } from "./generated/client"
import { undoMark } from "./undo-mark"

/** The notes on a measure's charts, its own and those of all measures, by day; those of every measure where none is named. */
export async function listChartNotes(client: PrismaClient, measureId?: string): Promise<ChartNote[]> {
  const rows = await client.chartNote.findMany({
    where: {
      undoneAt: null,
      ...(measureId === undefined ? {} : { OR: [{ measureId }, { measureId: null }] }),
    },
    orderBy: [{ onDay: "asc" }, { id: "asc" }],
  })
  return rows.map(({ id, measureId: of, onDay, text, madeBy, madeAt }) => ({
    ...{ id, measureId: of, text, madeBy, madeAt },
    onDay: onDay.toISOString().slice(0, 10),
  }))
}

/** Writes a note on the chart of one measure or, without one, of all. */
export async function addChartNote(
  client: PrismaClient,
  note: { measureId: string | null; onDay: string; text: string; caller: Caller; now: Date },
): Promise<void> {
  const { measureId, onDay, text, caller, now } = note
  await changeAndRecord(
    client,
    (transaction) =>
      transaction.chartNote.create({
        data: {
          ...{ measureId, text, madeBy: caller.name, madeAt: now },
          onDay: new Date(`${onDay}T00:00:00Z`),
        },
      }),
    ({ id }) => ({
      ...{ by: actorOf(caller), action: "chart-note.add", object: "chart note", objectId: String(id) },
      detail: { measure: measureId ?? "all", on: onDay },
    }),
  )
}

/** Takes a note back; false when there is none, or it has been. */
export function undoChartNote(
  client: PrismaClient,
  which: { id: number; caller: Caller; now: Date },
): Promise<boolean> {
  return undoMark(client, {
    ...{ ...which, action: "chart-note.undo", object: "chart note" },
    undo: (transaction, rows) => transaction.chartNote.updateMany(rows),
  })
}
