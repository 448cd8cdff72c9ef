import { existsSync, writeFileSync } from "node:fs"
import path from "node:path"
import type { Command } from "commander"
import { AppError } from "../errors"
import { countFacts, personZip } from "../export/person-zip"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { readDecisionHistory } from "../store/decision-history"
import { readContactHistory } from "../store/contact-history"
import { openDatabase } from "../store/database"
import type { PrismaClient } from "../store/generated/client"
import { readPersonFacts } from "../store/person-facts"
import { recordsOfPerson } from "../store/person-records"
import { print } from "./print"
import { say } from "./say"

type Options = { out: string; reason: string }

export function register(program: Command): void {
  program
    .command("export-patient")
    .argument("<number>", "the clinic's number of the patient, any of them after a merge")
    .description("write everything held about one patient, with where it came from, as a zip file")
    .requiredOption("--out <file>", "a zip file that is not there yet")
    .requiredOption("--reason <text>", "to whom and why; kept in the audit log, so it names nobody")
    .action(async (patientId: string, options: Options) => {
      const file = path.resolve(options.out)
      if (existsSync(file)) throw new AppError("bad-request", "The file of --out is there already.")
      if (options.reason.trim() === "") throw new AppError("bad-request", "A --reason is needed.")
      const database = await openDatabase({ say })
      const client = openClient(database.url)
      try {
        await print(await writeRecord(client, { patientId, file, reason: options.reason.trim() }))
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}

async function writeRecord(
  client: PrismaClient,
  asked: { patientId: string; file: string; reason: string },
): Promise<string> {
  const { timeZone } = await client.clinic.findUniqueOrThrow({ where: { id: 1 } })
  const { people, files, histories } = await client.$transaction(async (transaction) => {
    const records = await recordsOfPerson(transaction, asked.patientId)
    const patientIds = records.map((one) => one.patientId)
    const facts = await readPersonFacts(transaction, { patientIds, timeZone })
    const contacts = await readContactHistory(transaction, patientIds)
    const decisions = await readDecisionHistory(transaction, patientIds)
    const people = records.map((one) => one.publicId)
    return { people, files: facts, histories: [contacts, decisions] }
  })
  if (people.length === 0) throw new AppError("not-found", "There is no patient of this number.")
  const counts = countFacts(files)
  const bytes = await personZip(files, histories)
  await record(client, {
    ...{ by: commandActor(), action: "record.export", purpose: asked.reason, people, detail: counts },
  })
  writeFileSync(asked.file, bytes, { mode: 0o600, flag: "wx" })
  return `${counts.facts} facts and ${counts.earlier} earlier versions`
}
