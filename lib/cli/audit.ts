import { createWriteStream } from "node:fs"
import { pipeline } from "node:stream/promises"
import type { Command } from "commander"
import { isPlainDate, type PlainDate } from "../domain/plain-date"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { auditCsv } from "../export/audit-csv"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { checkAudit } from "../store/audit-check"
import { faultSentence } from "../store/audit-faults"
import { allAuditEntries } from "../store/audit-log"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import type { PrismaClient } from "../store/generated/client"
import { print } from "./print"
import { say } from "./say"

type Options = { from?: string; to?: string; out?: string }

export function register(program: Command): void {
  program
    .command("audit <action>")
    .description(
      "verify: that no entry of the audit log was altered, taken out or reordered; export: it as CSV",
    )
    .option("--from <YYYY-MM-DD>", "for an export: the first day, on the clinic's clock (default: all)")
    .option("--to <YYYY-MM-DD>", "for an export: the last day (default: all)")
    .option("--out <file>", "for an export: a new file for it, instead of stdout")
    .action(async (action: string, options: Options) => {
      if (action !== "verify" && action !== "export")
        throw new AppError("bad-request", "The actions are verify and export.")
      const days = { from: dayOf(options.from), to: dayOf(options.to) }
      const database = await openDatabase({ say })
      const client = openClient(database.url)
      try {
        if (action === "verify") await verify(client)
        else await exportDays(client, days, options.out)
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}

async function verify(client: PrismaClient): Promise<void> {
  const { dataDir } = readEnvironment()
  const state = await checkAudit(client, { by: commandActor(), dataDir, now: new Date() })
  if (state.first) throw new AppError("audit-broken", faultSentence(state.first))
  await print(
    `The audit log is whole: ${state.entries} entries, each tied to the one before, and ${state.anchors} anchors that agree.`,
  )
}

async function exportDays(
  client: PrismaClient,
  days: { from: PlainDate | null; to: PlainDate | null },
  out: string | undefined,
): Promise<void> {
  const clinic = await client.clinic.findUniqueOrThrow({ where: { id: 1 } })
  const filter = {
    ...days,
    actor: null,
    action: null,
    outcome: null,
    patient: null,
    timeZone: clinic.timeZone,
  }
  await record(client, { by: commandActor(), action: "audit.export", detail: days })
  const pieces = auditCsv(allAuditEntries(client, filter))
  if (out === undefined) {
    for await (const piece of pieces) await print(piece)
    return
  }
  try {
    await pipeline(pieces, createWriteStream(out, { flags: "wx", mode: 0o600 }))
  } catch (cause) {
    throw new AppError("bad-request", `The file ${out} cannot be written, or is there already.`, { cause })
  }
}

function dayOf(text: string | undefined): PlainDate | null {
  if (text === undefined) return null
  if (!isPlainDate(text)) throw new AppError("bad-request", `A day is given like 2026-10-31, not "${text}".`)
  return text
}
