import "server-only"
import type { MonthRecord } from "../domain/month-record"
import { listChosenBaselines } from "./chart-baselines"
import { listChartNotes } from "./chart-notes"
import type { PrismaClient } from "./generated/client"
import { listActions } from "./measure-actions"
import { listClosings } from "./month-closings"

/** What is on record of the month that ends on `asOf`, as it stands now. */
export async function monthRecord(client: PrismaClient, asOf: string): Promise<MonthRecord> {
  const [notes, baselines, actions, closings] = await Promise.all([
    listChartNotes(client),
    listChosenBaselines(client),
    listActions(client, { asOf }),
    listClosings(client),
  ])
  const closing = closings.find((one) => one.asOf === asOf && one.reopenedAt === null) ?? null
  return { notes, baselines, actions, closing }
}
