import { existsSync, writeFileSync } from "node:fs"
import { rename, rm } from "node:fs/promises"
import path from "node:path"
import type { Command } from "commander"
import { factKinds } from "../domain/fact-kinds"
import { deIdentify, type DeIdentified } from "../engine/de-identify"
import { AppError } from "../errors"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { print } from "./print"
import { say } from "./say"

export function register(program: Command): void {
  program
    .command("deidentify")
    .description("write an extract that names nobody, for research and support (45 CFR 164.514(b)(2))")
    .requiredOption("--out <folder>", "a folder that is not there yet")
    .option(
      "--key-file <file>",
      "also write which code stands for which patient; without it nothing leads back",
    )
    .action(async (options: { out: string; keyFile?: string }) => {
      const places = placesOf(options)
      const database = await openDatabase({ say })
      try {
        await writeExtract(database.url, places)
      } finally {
        await database.close()
      }
    })
}

type Places = { outDir: string; keyFile: string | null }

function placesOf(options: { out: string; keyFile?: string }): Places {
  const outDir = path.resolve(options.out)
  const keyFile = options.keyFile === undefined ? null : path.resolve(options.keyFile)
  if (existsSync(outDir)) throw new AppError("bad-request", "The folder of --out is there already.")
  if (!existsSync(path.dirname(outDir)))
    throw new AppError("bad-request", "The folder in which --out is to be made is not there.")
  if (keyFile !== null && existsSync(keyFile))
    throw new AppError("bad-request", "The file of --key-file is there already.")
  if (keyFile?.startsWith(`${outDir}${path.sep}`))
    throw new AppError("bad-request", "The key must lie outside the extract, which it leads back from.")
  return { outDir, keyFile }
}

/** The folder shows under its name only when it is whole and on record. */
async function writeExtract(databaseUrl: string, { outDir, keyFile }: Places): Promise<void> {
  const draft = `${outDir}.${process.pid}`
  const client = openClient(databaseUrl)
  try {
    const made = await deIdentify({ databaseUrl, outDir: draft, onProgress: say })
    if (keyFile !== null) writeFileSync(keyFile, keyCsv(made), { mode: 0o600, flag: "wx" })
    const detail = { patients: made.rows.patients, hasKey: keyFile !== null }
    await record(client, { by: commandActor(), action: "record.de-identify", detail })
    await rename(draft, outDir)
    await print(factKinds.map((kind) => `${kind}.csv\t${made.rows[kind]}`).join("\n"))
  } finally {
    await rm(draft, { recursive: true, force: true })
    await client.$disconnect()
  }
}

function keyCsv({ key }: DeIdentified): string {
  const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`
  return ["code,patient_id", ...key.map((one) => `${one.code},${quoted(one.patientId)}`), ""].join("\n")
}
