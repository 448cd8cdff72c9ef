import type { FileNotes, FileReport, ImportQuestion } from "../domain/import-report"
import type { ShownProblem } from "./import-file"

export type ReportInput = {
  status: "done" | "asks" | "dry run"
  importId: number
  files: readonly FileReport[]
  question: ImportQuestion | null
  ignored: readonly string[]
  releasedRejects: number
  firstProblems: readonly ShownProblem[]
}

const counted = ["dataRows", "added", "changed", "unchanged", "withdrawn", "held", "rejected"] as const
const headings = ["file", "rows", "added", "changed", "unchanged", "withdrawn", "held", "rejected"]

/** What an import did, for a person to read. It names files, lines, columns and reasons, and no value of a patient. */
export function importReport(outcome: ReportInput): string {
  const { files, question, ignored, releasedRejects, firstProblems } = outcome
  const blocks = [
    opening(outcome),
    table(files),
    ...files.map((file) => fileBlock(file, firstProblems)).filter(Boolean),
    releasedRejects > 0
      ? `${rows(releasedRejects)} held by earlier imports now rejected: they lie before the patient's birth.`
      : "",
    ignored.length > 0 ? `Not files of an extract, left out: ${ignored.join(", ")}` : "",
    question ? questionBlock(question, outcome.status) : "",
  ]
  return blocks.filter(Boolean).join("\n\n")
}

function opening({ status, importId }: ReportInput): string {
  if (status === "dry run") return "Dry run: nothing was stored. The import would do this:"
  if (status === "asks") return `Import ${importId} has stored nothing yet. It would do this:`
  return `Import ${importId} is stored.`
}

function table(files: readonly FileReport[]): string {
  const lines = files.map((file) => [file.file, ...counted.map((name) => String(file[name]))])
  const all = [headings, ...lines]
  const widths = headings.map((_, column) => Math.max(...all.map((line) => (line[column] ?? "").length)))
  const aligned = all.map((line) =>
    line
      .map((cell, column) =>
        column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0),
      )
      .join("  "),
  )
  return aligned.join("\n")
}

function fileBlock(file: FileReport, problems: readonly ShownProblem[]): string {
  const own = problems.filter((problem) => problem.file === file.file)
  const lines = [
    ...noteLines(file.notes),
    ...own.map(({ line, column, message }) => `line ${line}: ${column ? `${column} ` : ""}${message}`),
    file.rejected > own.length && own.length > 0 && !file.isRejected
      ? `and ${rows(file.rejected - own.length)} more rejected; the Imports screen lists them all`
      : "",
  ].filter(Boolean)
  return lines.length === 0 ? "" : [file.file, ...lines.map((line) => `  ${line}`)].join("\n")
}

/** Everything worth telling about a file, one sentence each. */
export function noteLines(notes: FileNotes): string[] {
  const codes = notes.unlistedLoinc.map(({ code, rows: n }) => `${code} (${n.toLocaleString("en-US")})`)
  const lines: [boolean, string][] = [
    [notes.problem !== null, `the whole file is rejected: ${notes.problem}`],
    [notes.encoding === "windows-1252", "read as Windows-1252, since it is not UTF-8"],
    [notes.unknownColumns.length > 0, `columns left out: ${notes.unknownColumns.join(", ")}`],
    [
      notes.unknownClinicians > 0,
      `${rows(notes.unknownClinicians)} with an unknown clinician_id, kept without`,
    ],
    [
      notes.brokenMerges > 0,
      `${rows(notes.brokenMerges)} with a merged_into that leads nowhere, kept without`,
    ],
    [notes.testPatients > 0, `${rows(notes.testPatients)} of test patients, kept out of everything`],
    [notes.moved > 0, `${rows(notes.moved)} moved to another patient, because their id came back there`],
    [notes.unitDisagreements > 0, `${rows(notes.unitDisagreements)} whose LOINC code speaks of another unit`],
    [codes.length > 0, `LOINC codes on no list, stored and not used: ${codes.join(", ")}`],
    [notes.olderKept > 0, `${rows(notes.olderKept)} rejected whose older version stays in force`],
    [
      notes.replacedInOrder > 0,
      `${rows(notes.replacedInOrder)} without an id replaced by order: ${replaced(notes)}`,
    ],
    [
      notes.withdrawnByFull > 0,
      `${notes.withdrawnByFull.toLocaleString("en-US")} facts withdrawn that the extract no longer has`,
    ],
  ]
  return lines.filter(([isSo]) => isSo).map(([, line]) => line)
}

function replaced({ replacedInOrder, replacedLines }: FileNotes): string {
  const shown = replacedLines
    .slice(0, 5)
    .map(({ line, olderImport, olderLine }) => `line ${line} for line ${olderLine} of import ${olderImport}`)
  return shown.join(", ") + (replacedInOrder > shown.length ? " ..." : "")
}

function questionBlock(question: ImportQuestion, status: ReportInput["status"]): string {
  const ending = {
    asks: "Start it again with --accept to import it nevertheless.",
    "dry run": "Without --accept the import would stop here and ask.",
    done: "It went on because it was told to.",
  }[status]
  return ["This looks odd:", ...questionLines(question).map((line) => `  ${line}`), ending].join("\n")
}

/** Each oddity in one sentence. */
export function questionLines({ rejects, withdrawals, limits }: ImportQuestion): string[] {
  return [
    ...rejects.map(
      ({ file, dataRows, rejected, held }) =>
        `${file}: of ${rows(dataRows)}, ${rejected} rejected and ${held} held (asked above ${percent(limits.rejectShare)} and from ${limits.rejectRows} rows)`,
    ),
    ...withdrawals.map(
      ({ file, withdrawn, inForce }) =>
        `${file}: ${withdrawn} of ${inForce} facts in force would be withdrawn (asked above ${percent(limits.withdrawShare)})`,
    ),
  ]
}

function rows(count: number): string {
  return count === 1 ? "1 row" : `${count} rows`
}

function percent(share: number): string {
  return `${Number((share * 100).toFixed(2))}%`
}
