import { mkdir, rm } from "node:fs/promises"
import path from "node:path"
import type { Command } from "commander"
import { readEnvironment } from "../env"
import { verifyClosing } from "../engine/verify-closing"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { listClosings, type MonthClosing } from "../store/month-closings"
import { AppError } from "../errors"
import { print } from "./print"
import { recordCommand } from "./record-command"
import { say } from "./say"

export function register(program: Command): void {
  program
    .command("months")
    .description("print which months were closed, and verify that their figures come out again")
    .option("--verify", "compute each closed month as known then and compare to the last digit")
    .addHelpText("after", "\nEnds with 1 when figures of a closed month do not come out again.")
    .action(async (options: { verify?: boolean }) => {
      const environment = readEnvironment()
      const database = await openDatabase({ environment, say })
      const client = openClient(database.url)
      try {
        const closings = await listClosings(client)
        const inForce = closings.filter((one) => one.reopenedAt === null)
        const differences = options.verify
          ? await verifyAll(inForce, { databaseUrl: database.url, dataDir: environment.dataDir })
          : null
        await recordCommand({ action: "figures.print", detail: { closings: closings.length } })
        await print(tableOf(closings, differences))
        const wrong = [...(differences ?? [])].filter(([, found]) => found.length > 0)
        if (wrong.length > 0)
          throw new AppError(
            "not-reproduced",
            "The figures kept do not come out again where it says so above.",
          )
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}

type Differences = ReadonlyMap<number, readonly string[]>

async function verifyAll(
  closings: readonly MonthClosing[],
  place: { databaseUrl: string; dataDir: string },
): Promise<Differences> {
  const workDir = path.join(place.dataDir, "snapshots", `build-${process.pid}-verify`)
  await mkdir(workDir, { recursive: true, mode: 0o700 })
  const found = new Map<number, readonly string[]>()
  try {
    for (const closing of closings) {
      say(`Computing ${closing.asOf.slice(0, 7)} as known when it was closed`)
      found.set(closing.id, await verifyClosing({ ...place, workDir, month: closing }))
    }
  } finally {
    await rm(workDir, { recursive: true, force: true })
  }
  return found
}

function tableOf(closings: readonly MonthClosing[], differences: Differences | null): string {
  if (closings.length === 0) return "No month was closed."
  return closings
    .flatMap((one) => [
      [one.asOf.slice(0, 7), one.closedAt.toISOString(), one.closedBy, standingOf(one, differences)].join(
        "\t",
      ),
      ...(differences?.get(one.id) ?? []).map((line) => `\t${line}`),
    ])
    .join("\n")
}

function standingOf(one: MonthClosing, differences: Differences | null): string {
  if (one.reopenedAt !== null)
    return `opened again ${one.reopenedAt.toISOString()} by ${one.reopenedBy ?? "somebody"}: ${one.reopenReason ?? ""}`
  const found = differences?.get(one.id)
  if (!found) return "closed"
  return found.length === 0
    ? "closed; every figure comes out again"
    : `closed; ${found.length} figures differ`
}
