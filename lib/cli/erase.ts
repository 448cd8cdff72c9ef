import { InvalidArgumentError, type Command } from "commander"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { ErasureWords, findErasure, listErasures, requestErasure, type Erasure } from "../store/erasures"
import type { PrismaClient } from "../store/generated/client"
import { recordsOfPerson } from "../store/person-records"
import { wordsOfPerson } from "../store/person-words"
import { carryOutErasure } from "./carry-out-erasure"
import { print } from "./print"
import { say } from "./say"

type Options = { patient?: string; reason?: string; basis?: string; confirm?: string }

export function register(program: Command): void {
  program
    .command("erase")
    .argument("[request]", "the number of a request, to carry it out", number)
    .description("erase a patient's record where law demands it; without a number, list the requests")
    .option("--patient <number>", "ask for an erasure: the clinic's number of the patient")
    .option("--reason <text>", "with --patient: why; it names nobody")
    .option("--basis <text>", "with --patient: the law or order that demands it")
    .option("--confirm <number>", "with a request: the patient's number once more")
    .addHelpText("after", "\nWhat is erased cannot be brought back; docs/data-life.md says what stays.")
    .action(async (request: number | undefined, options: Options) => {
      const environment = readEnvironment()
      const database = await openDatabase({ environment, say })
      const client = openClient(database.url)
      try {
        if (request !== undefined) {
          const asked = { id: request, confirm: options.confirm }
          await carryOutErasure({ client, databaseUrl: database.url, environment, asked })
          await print(`Request ${request} is carried out.`)
        } else if (options.patient !== undefined) await print(await ask(client, options.patient, options))
        else await print(tableOf(await listErasures(client)))
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}

async function ask(client: PrismaClient, patientId: string, options: Options): Promise<string> {
  const said = ErasureWords.safeParse({ reason: options.reason, basis: options.basis })
  if (!said.success)
    throw new AppError("bad-request", "A --reason of at least ten characters and a --basis are needed.")
  const records = await recordsOfPerson(client, patientId)
  const own = records.find((one) => one.patientId === patientId)
  if (!own) throw new AppError("not-found", "There is no patient of this number.")
  const known = await wordsOfPerson(
    client,
    records.map((one) => one.patientId),
  )
  const words = [...known.numbers, ...known.givenNames, ...known.familyNames, ...known.addresses]
  const about = { publicId: own.publicId, words, said: said.data, by: commandActor(), now: new Date() }
  const answer = await requestErasure(client, about)
  if (answer.status === "names-person")
    throw new AppError("bad-request", "The reason and the basis are kept, so they must not name the person.")
  if (answer.status === "asked-before") {
    const standing = await findErasure(client, { publicId: own.publicId })
    throw new AppError("bad-request", `This was asked for before, as request ${standing?.id}.`)
  }
  return `Request ${answer.id} is on record. npx filtrate erase ${answer.id} --confirm NUMBER carries it out.`
}

function tableOf(erasures: readonly Erasure[]): string {
  if (erasures.length === 0) return "No erasure was asked for."
  return erasures
    .map((one) =>
      [one.id, one.askedAt.toISOString().slice(0, 10), standOf(one), one.askedBy, one.basis, one.reason].join(
        "\t",
      ),
    )
    .join("\n")
}

function standOf({ erasedAt, clearedAt }: Erasure): string {
  if (erasedAt === null) return "to be carried out"
  return clearedAt === null ? "rows erased, files to be cleared: run it again" : "carried out"
}

function number(text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new InvalidArgumentError("must be the number of a request")
  return Number(text)
}
