import path from "node:path"
import type { FileReport, ImportQuestion } from "../domain/import-report"
import { plainToday } from "../domain/plain-date"
import type { Settings } from "../domain/settings"
import { AppError } from "../errors"
import type { Actor } from "../store/audit-actors"
import { connect, importFailure } from "../store/connect"
import { readErasedNumbers } from "../store/erased-numbers"
import { readBirths, readImportContext, readStaffIds, readSurvivors } from "../store/import-context"
import { openImportRecord, type ImportRecord } from "../store/import-record"
import { settleInterrupted, waitForTurn } from "../store/import-turn"
import { openLedgerWriter, type LedgerWriter } from "../store/ledger-writer"
import { countBrokenMerges } from "./broken-merges"
import { dayFromText } from "./calendar"
import type { CheckContext } from "./check-row"
import { clinicClock } from "./clinic-clock"
import { importFile, type FileStore, type ImportedFile, type ShownProblem } from "./import-file"
import { readLabCodes } from "./lab-codes"
import { questionOf } from "./question"
import { openSource, type Source } from "./source"
import { typedSource, type TypedRows } from "./typed-source"

export type ImportOptions = {
  databaseUrl: string
  /** Where rows may be kept on disk for the time of the import. */
  dataDir: string
  /** The folder or the zip file. */
  location: string
  isFull: boolean
  isDryRun: boolean
  /** A person has seen the question that an earlier try asked, and said to go on. */
  isAccepted: boolean
  now: Date
  /** The clinic's time zone where the store names none. */
  timeZone: string
  say: (line: string) => void
  /** How long to wait for another import. */
  waitMs?: number
  /** Goes on with this row of the history, which the upload of the file has made. */
  importId?: number
  uploadPath?: string
  /** The rows to import where no folder or zip holds them; `location` is their name in the history then. */
  typed?: TypedRows & { by: Actor }
  /** From this size on a file goes straight into its ledger while that is empty. */
  directFromBytes?: number
}

export type ImportOutcome = {
  importId: number
  status: "done" | "asks" | "dry run"
  files: FileReport[]
  question: ImportQuestion | null
  /** Files that are none of the ten. */
  ignored: string[]
  /** Facts held since earlier imports that turn out to lie before their patient's birth. */
  releasedRejects: number
  firstProblems: ShownProblem[]
}

const anHour = 3_600_000
const aMegabyte = 1_000_000
const tellEveryMs = 3000

/**
 * Imports one extract in one transaction: everything of it is stored, or nothing. Throws AppError when the extract cannot be
 * used, another import does not end, or the disk is full; the history then says so.
 */
export async function runImport(options: ImportOptions): Promise<ImportOutcome> {
  const client = await connect(options.databaseUrl)
  try {
    const known = await readImportContext(client)
    const timeZone = known.timeZone ?? options.timeZone
    const record = await openImportRecord({
      databaseUrl: options.databaseUrl,
      id: options.importId ?? null,
      source: path.basename(options.location),
      isFull: options.isFull,
      isAccepted: options.isAccepted,
      uploadPath: options.uploadPath ?? null,
      enteredBy: options.typed?.by ?? null,
      asOf: plainToday(options.now, timeZone),
      startedAt: options.now,
    })
    try {
      return await withRecord({ ...options, ...known, timeZone, client, record })
    } catch (error) {
      const failure = importFailure(error)
      await recordFailure(record, failure)
      throw failure
    } finally {
      await record.close().catch(() => {})
    }
  } finally {
    await client.end().catch(() => {})
  }
}

type Run = ImportOptions & {
  client: Awaited<ReturnType<typeof connect>>
  record: ImportRecord
  settings: Settings
}

async function withRecord(run: Run): Promise<ImportOutcome> {
  const { client, record, say } = run
  const source = run.typed ? typedSource(run.typed) : await openSource(run.location)
  try {
    await waitForTurn(client, {
      waitMs: run.waitMs ?? anHour,
      async onWait() {
        say("Another import is running; this one waits for it.")
        await record.setStatus("waiting")
      },
    })
    await record.setStatus("running")
    await settleInterrupted(client, record.id)
    const writer = await openLedgerWriter(client, {
      importId: record.id,
      knownAt: run.now,
      spoolDir: path.join(run.dataDir, "import-spool"),
    })
    try {
      const outcome = await importSource(run, source, writer)
      if (run.isDryRun) await record.discard()
      return outcome
    } catch (error) {
      await writer.rollback().catch(() => {})
      throw error
    }
  } finally {
    await source.close()
  }
}

async function importSource(run: Run, source: Source, writer: LedgerWriter): Promise<ImportOutcome> {
  const { record, say } = run
  const totalBytes = source.files.reduce((total, file) => total + file.size, 0)
  const imported = await importFiles(run, source, writer)
  say("Checking what earlier imports held")
  const releasedRejects = await writer.rejectReleased(run.timeZone)
  const files = imported.map((one) => one.report)
  if (run.typed) assertTaken(files)
  const question = questionOf(
    files,
    imported.map((one) => one.withdrawal),
    run.settings,
  )
  const outcome = {
    importId: record.id,
    files,
    question,
    ignored: source.ignored,
    releasedRejects,
    firstProblems: imported.flatMap((one) => one.firstProblems),
  }
  if (run.isDryRun) {
    await writer.rollback()
    return { ...outcome, status: "dry run" }
  }
  const status = question && !run.isAccepted ? "asks" : "done"
  if (status === "asks") await writer.undo()
  say(status === "asks" ? "Stopping to ask" : "Saving")
  await writer.commit({ status, question, files, totalBytes, by: run.typed?.by ?? null })
  return { ...outcome, status }
}

/** Staff and patients come first, since everything else is checked against them, whatever the order in the extract. */
async function importFiles(run: Run, source: Source, writer: LedgerWriter): Promise<ImportedFile[]> {
  const { client, record, say } = run
  const totalBytes = source.files.reduce((total, file) => total + file.size, 0)
  const context: CheckContext = {
    importDay: importDayOf(run),
    clock: clinicClock(run.timeZone),
    labCodes: readLabCodes(),
    births: null,
    staffIds: null,
    isErased: await readErasedNumbers(client, run.dataDir),
  }
  const store: FileStore = {
    ...{ rejects: writer.rejects, side: writer.side },
    async load(kind, options) {
      const loading = await writer.load(kind, options)
      return { ...loading, merge: (request) => loading.merge({ ...request, side: writer.side }) }
    },
  }
  const imported: ImportedFile[] = []
  const tellShare = createShareTeller(say)
  let doneBytes = 0
  for (const file of source.files) {
    say(`Reading ${file.kind}.csv`)
    if (file.kind !== "staff") context.staffIds ??= await readStaffIds(client)
    if (file.kind !== "staff" && file.kind !== "patients") context.births ??= await readBirths(client)
    const one = await importFile({
      ...{ file, context, store, importId: record.id, isFull: run.isFull },
      isLarge: file.size >= (run.directFromBytes ?? aMegabyte),
      onBytes(count) {
        doneBytes += count
        record.progress(doneBytes, totalBytes)
        tellShare(doneBytes / totalBytes)
      },
    })
    if (file.kind === "patients") {
      const births = await readBirths(client)
      const survivors = await readSurvivors(client)
      one.report.notes.brokenMerges = countBrokenMerges(survivors, (patient) => births.has(patient))
    }
    imported.push(one)
  }
  return imported
}

/** What was typed is stored as a whole or not at all, and touches no row but its own. */
function assertTaken(files: readonly FileReport[]): void {
  if (files.some(({ changed, held, rejected }) => changed + held + rejected > 0))
    throw new AppError(
      "import-refused",
      "Something else was stored meanwhile. Nothing was saved; look again.",
    )
}

/** Tells every few seconds how much has been read, so that a long silence is none. */
function createShareTeller(say: (line: string) => void): (share: number) => void {
  let told = performance.now()
  return (share) => {
    if (performance.now() - told < tellEveryMs) return
    told = performance.now()
    say(`${Math.floor(share * 100)}% read`)
  }
}

function importDayOf({ now, timeZone }: { now: Date; timeZone: string }): number {
  const day = dayFromText(plainToday(now, timeZone))
  if (day === null) throw new RangeError("import requires a valid clock")
  return day
}

async function recordFailure(record: ImportRecord, failure: unknown): Promise<void> {
  const isRefused = failure instanceof AppError && failure.code === "import-refused"
  const message =
    failure instanceof AppError ? failure.personMessage : "The import failed. Nothing was stored."
  await record.finish({ status: isRefused ? "refused" : "failed", message }).catch(() => {})
}
