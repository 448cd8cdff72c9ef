import { InvalidArgumentError, Option, type Command } from "commander"
import { machineTimeZone, readEnvironment } from "../env"
import { AppError } from "../errors"
import { importReport } from "../import/report"
import { runImport } from "../import/run"
import { refresh } from "../jobs/refresh"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { print } from "./print"
import { say } from "./say"

type Options = { full?: boolean; dryRun?: boolean; accept?: boolean; json?: boolean; importId?: number }

export function register(program: Command): void {
  program
    .command("import")
    .argument("<extract>", "the folder of CSV files, or a zip file of it")
    .description("bring in a clinic's extract: all of it, or nothing")
    .option("--full", "the extract is everything: withdraw what its files no longer have")
    .option("--dry-run", "check and count everything, store nothing")
    .option("--accept", "go on although much is rejected, held or withdrawn")
    .option("--json", "print the report as JSON")
    .addOption(
      new Option("--import-id <number>", "go on with this row of the history").argParser(number).hideHelp(),
    )
    .addHelpText(
      "after",
      "\nEnds with 0 when stored, 3 when it asks for --accept, 1 when the extract cannot be used.",
    )
    .action(importExtract)
}

async function importExtract(location: string, options: Options): Promise<void> {
  const environment = readEnvironment()
  const database = await openDatabase({ environment, say })
  try {
    await recordAsked(database.url, options)
    const outcome = await runImport({
      databaseUrl: database.url,
      dataDir: environment.dataDir,
      location,
      isFull: options.full === true,
      isDryRun: options.dryRun === true,
      isAccepted: options.accept === true,
      now: new Date(),
      timeZone: environment.timeZone ?? machineTimeZone(),
      importId: options.importId,
      say,
    })
    await print(options.json ? JSON.stringify(outcome) : importReport(outcome))
    if (outcome.status === "asks")
      throw new AppError("import-asks", "Nothing was stored. Look at the report, then add --accept to go on.")
    if (outcome.status === "done") await refreshSnapshot(database.url, environment.dataDir)
  } finally {
    await database.close()
  }
}

/** One whose upload began its history is on record already, under who sent it. */
async function recordAsked(databaseUrl: string, options: Options): Promise<void> {
  if (options.importId !== undefined) return
  const client = openClient(databaseUrl)
  try {
    await record(client, {
      ...{ by: commandActor(), action: options.dryRun ? "import.try" : "import.start" },
      detail: { isFull: options.full === true, isAccepted: options.accept === true },
    })
  } finally {
    await client.$disconnect()
  }
}

/** The import is stored whatever comes of this; a failure is on record and shown on the Imports screen. */
async function refreshSnapshot(databaseUrl: string, dataDir: string): Promise<void> {
  try {
    await refresh({ databaseUrl, dataDir, onProgress: say })
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    say(`${error.personMessage} The import itself is stored; filtrate refresh tries again.`)
  }
}

function number(text: string): number {
  if (!/^\d+$/.test(text)) throw new InvalidArgumentError("must be a whole number")
  return Number(text)
}
