import { buildSnapshot } from "../engine/build"
import { AppError } from "../errors"
import { changeAndRecord } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { plainToday } from "../domain/plain-date"
import { listClosings } from "../store/month-closings"
import { reconcileCases } from "./reconcile-cases"
import { noteSnapshotProgram } from "./snapshot-freshness"

/**
 * Builds and swaps in a new snapshot, and keeps on record how that went.
 * A failed build leaves the current snapshot serving; its reason is shown on the Imports screen. The cases of people to
 * contact follow the figures at once.
 */
export async function refresh(options: {
  databaseUrl: string
  dataDir: string
  now?: Date
  onProgress?: (text: string) => void
}): Promise<void> {
  const now = options.now ?? new Date()
  const client = openClient(options.databaseUrl)
  try {
    const build = await client.snapshotBuild.create({ data: { status: "running" } })
    const finish = (data: { status: "done" | "failed"; message?: string; fileName?: string }) =>
      changeAndRecord(
        client,
        (transaction) =>
          transaction.snapshotBuild.update({
            where: { id: build.id },
            data: { ...data, finishedAt: new Date() },
          }),
        () => ({
          ...{ by: commandActor(), action: "figures.build", outcome: data.status },
          ...{ object: "build", objectId: String(build.id) },
        }),
      )
    try {
      const fileName = await buildSnapshot({
        ...options,
        builtAt: now,
        closed: (await listClosings(client)).filter((one) => one.reopenedAt === null),
        todayIn: (timeZone) => plainToday(now, timeZone),
      })
      await finish({ status: "done", fileName })
      await noteSnapshotProgram({ client, dataDir: options.dataDir })
    } catch (cause) {
      const message = cause instanceof Error ? cause.message : "unknown reason"
      await finish({ status: "failed", message })
      throw new AppError(
        "snapshot-failed",
        `The snapshot could not be built, the earlier one goes on serving: ${message}`,
        {
          cause,
        },
      )
    }
    await followWithCases({ client, dataDir: options.dataDir, now })
  } finally {
    await client.$disconnect()
  }
}

/** The figures serve whatever comes of this; a look at the cases is made again by the next one. */
async function followWithCases(options: Parameters<typeof reconcileCases>[0]): Promise<void> {
  try {
    await reconcileCases(options)
  } catch (cause) {
    throw new AppError(
      "snapshot-failed",
      "The figures are built, but the cases of people to contact are not up to date with them. Run `npx filtrate refresh`.",
      { cause },
    )
  }
}
