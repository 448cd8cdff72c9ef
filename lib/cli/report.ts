import { existsSync, mkdirSync, renameSync, writeFileSync } from "node:fs"
import path from "node:path"
import type { Command } from "commander"
import { wholeClinic } from "../access/scope"
import type { MonthRecord } from "../domain/month-record"
import { askWithin } from "../engine/scoped"
import { snapshotMeta, type SnapshotMeta } from "../engine/snapshot-meta"
import { AppError } from "../errors"
import { askMonthReport, type Ask } from "../report/ask-month-report"
import { askReportPeople } from "../report/ask-report-people"
import {
  canHoldPeople,
  documentFormats,
  isDocumentFormat,
  monthDocument,
  type DocumentFormat,
  type MonthDocument,
} from "../report/month-documents"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { monthRecord } from "../store/month-record"
import { print } from "./print"
import { recordCommand } from "./record-command"

type Options = { month: string; out: string; format?: string[]; people?: boolean; force?: boolean }

export function register(program: Command): void {
  program
    .command("report")
    .description("write the documents of a month")
    .requiredOption("--month <YYYY-MM>", "a month that the figures have")
    .requiredOption("--out <folder>", "where the files go; made if it is not there")
    .option("--format <format...>", `some of ${documentFormats.join(", ")} (default: all)`)
    .option("--people", "lists of people, too, where the format can hold them; readable by the owner alone")
    .option("--force", "write over files of the same name")
    .action(async (options: Options) => {
      const formats = formatsOf(options)
      const meta = await snapshotMeta(wholeClinic)
      const asOf = dayOfMonth(options.month, meta)
      const ask: Ask = (question, params) => askWithin(wholeClinic, question, params)
      const report = await askMonthReport(ask, {
        snapshot: { ...meta, isWholeClinic: true },
        asOf,
        record: await recordOf(asOf),
      })
      const people = options.people === true ? await askReportPeople(ask, asOf) : null
      const documents = await Promise.all(
        formats.map((format) =>
          monthDocument(report, { format, people: canHoldPeople(format) ? people : null }),
        ),
      )
      const files = documents.map((document) => ({
        document,
        file: path.join(options.out, document.fileName),
      }))
      const there = files.find(({ file }) => existsSync(file))
      if (there && options.force !== true)
        throw new AppError(
          "bad-request",
          `${there.document.fileName} is there already; --force writes over it.`,
        )
      await recordCommand({
        ...{ action: "report.export", object: "month", objectId: options.month },
        detail: { on: asOf, formats: formats.join(" ") },
        ...(people === null ? {} : { people: people.people.map((one) => one.public_id) }),
      })
      mkdirSync(options.out, { recursive: true })
      for (const one of files) writeWhole(one)
      await print(files.map(({ file }) => file).join("\n"))
    })
}

function formatsOf(options: Options): readonly DocumentFormat[] {
  if (options.format === undefined) return documentFormats
  return [...new Set(options.format)].map((word) => {
    if (isDocumentFormat(word)) return word
    throw new AppError("bad-request", `"${word}" is no format. Formats: ${documentFormats.join(", ")}.`)
  })
}

/** The day the month stands at in the snapshot, which has the months of three years. */
function dayOfMonth(month: string, meta: SnapshotMeta): string {
  if (!/^\d{4}-(0[1-9]|1[0-2])$/.test(month))
    throw new AppError("bad-request", `--month takes a month like 2026-10, not "${month}".`)
  const day = meta.asOfs.find((one) => one.startsWith(month))
  if (day) return day
  const [first = meta.runningAsOf] = meta.asOfs
  throw new AppError(
    "not-found",
    `There are no figures of ${month}; they go from ${first.slice(0, 7)} to ${meta.runningAsOf.slice(0, 7)}.`,
  )
}

/** What people wrote of the month, from the record store. */
async function recordOf(asOf: string): Promise<MonthRecord> {
  const database = await openDatabase()
  const client = openClient(database.url)
  try {
    return await monthRecord(client, asOf)
  } finally {
    await client.$disconnect()
    await database.close()
  }
}

/** A file is there whole or not at all, so that whoever fetches it on a schedule never takes half of one. */
function writeWhole({ document, file }: { document: MonthDocument; file: string }): void {
  const mode = document.fileName.includes("-people") ? 0o600 : 0o644
  const partial = `${file}.${process.pid}.partial`
  writeFileSync(partial, document.bytes, { mode, flag: "wx" })
  renameSync(partial, file)
}
