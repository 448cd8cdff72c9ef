import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import path from "node:path"
import type { FileReport } from "../../lib/domain/import-report"
import { runImport, type ImportOptions, type ImportOutcome } from "../../lib/import/run"

/** The files of an extract by kind: whole text, or lines to be joined. */
export type ExtractFiles = Record<string, string | Buffer | readonly string[]>

/** The day on which the tests import, in the clinic's time zone. */
export const importDay = "2026-03-15"

/** A folder for the time of a test file. */
export function openFolder(): { dir: string; close: () => void } {
  const dir = mkdtempSync(path.join(tmpdir(), "filtrate-extract-"))
  return { dir, close: () => rmSync(dir, { recursive: true, force: true }) }
}

/** Writes an extract into a folder of its own and gives the folder. */
export function writeExtract(dir: string, files: ExtractFiles): string {
  const folder = mkdtempSync(path.join(dir, "extract-"))
  for (const [kind, content] of Object.entries(files)) {
    const body = typeof content === "string" || Buffer.isBuffer(content) ? content : `${content.join("\n")}\n`
    writeFileSync(path.join(folder, kind.includes(".") ? kind : `${kind}.csv`), body)
  }
  return folder
}

/** Imports an extract as the command does, on the tests' import day in Chicago unless said. */
export async function importExtract(
  store: { url: string },
  dir: string,
  files: ExtractFiles,
  options: Partial<ImportOptions> = {},
): Promise<ImportOutcome> {
  const dataDir = path.join(dir, "data")
  mkdirSync(dataDir, { recursive: true })
  return runImport({
    databaseUrl: store.url,
    dataDir,
    location: writeExtract(dir, files),
    isFull: false,
    isDryRun: false,
    isAccepted: false,
    now: new Date(`${importDay}T18:00:00Z`),
    timeZone: "America/Chicago",
    say: () => {},
    ...options,
  })
}

/** The counts of one file in the order of the report's columns. */
export function counts(
  outcome: ImportOutcome,
  kind: string,
): Omit<FileReport, "file" | "kind" | "notes" | "isRejected"> {
  const report = outcome.files.find((file) => file.kind === kind)
  if (!report) throw new RangeError(`the outcome has no ${kind}`)
  const { dataRows, added, changed, unchanged, withdrawn, held, rejected } = report
  return { dataRows, added, changed, unchanged, withdrawn, held, rejected }
}
