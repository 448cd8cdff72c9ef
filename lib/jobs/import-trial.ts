import { spawn } from "node:child_process"
import { randomUUID } from "node:crypto"
import { rm } from "node:fs/promises"
import path from "node:path"
import { z } from "zod"
import { FileReport, ImportQuestion } from "../domain/import-report"
import { AppError } from "../errors"

type Site = { importUrl: string; dataDir: string }

/** What a trial would have done; it leaves no trace in the store. */
export const TrialOutcome = z.object({
  files: z.array(FileReport),
  question: ImportQuestion.nullable(),
  ignored: z.array(z.string()),
  firstProblems: z.array(
    z.object({ file: z.string(), line: z.number(), column: z.string().nullable(), message: z.string() }),
  ),
})

export type TrialOutcome = z.infer<typeof TrialOutcome>

export type Trial = { source: string; startedAt: Date } & (
  { status: "running" } | { status: "done"; outcome: TrialOutcome } | { status: "failed"; message: string }
)

declare global {
  var filtrateTrials: Map<string, Trial> | undefined
}

/** The trials of this site since it was started; kept in memory, because a trial is on no record. */
function trials(): Map<string, Trial> {
  return (globalThis.filtrateTrials ??= new Map())
}

export function findTrial(id: string): Trial | null {
  return trials().get(id) ?? null
}

/** As many trials as run at once, each in a process of its own. */
const mostRunning = 2

/** As many trials as are kept to be looked at; the oldest that has ended goes first. */
const mostKept = 50

/**
 * Checks and counts an upload in a process of its own without storing anything; the upload is removed afterwards.
 * Throws AppError("import-running") while as many trials run as may.
 */
export function startTrial(
  site: Site,
  upload: { uploadPath: string; source: string; isFull: boolean; now: Date },
): string {
  const { source, uploadPath } = upload
  if ([...trials().values()].filter((one) => one.status === "running").length >= mostRunning) {
    void rm(uploadPath, { recursive: true, force: true })
    throw new AppError("import-running", "Other trials are under way. Send it again when they have ended.")
  }
  forgetOldest()
  const id = randomUUID()
  const begun = { source, startedAt: upload.now }
  trials().set(id, { ...begun, status: "running" })
  const command = path.join(process.cwd(), "lib", "cli", "filtrate.mjs")
  const flags = ["--dry-run", "--json", ...(upload.isFull ? ["--full"] : [])]
  const child = spawn(process.execPath, [command, "import", uploadPath, ...flags], {
    env: { ...process.env, DATABASE_URL: site.importUrl, FILTRATE_DATA: site.dataDir },
    stdio: ["ignore", "pipe", "pipe"],
  })
  const said = { out: "", error: "" }
  child.stdout.setEncoding("utf8").on("data", (text: string) => (said.out += text))
  child.stderr.setEncoding("utf8").on("data", (text: string) => (said.error = lastLine(said.error + text)))
  const end = (code: number | null) => {
    trials().set(id, { ...begun, ...endOf(code, said) })
    void rm(uploadPath, { recursive: true, force: true })
  }
  child.once("error", () => end(null))
  child.once("close", end)
  return id
}

function forgetOldest(): void {
  for (const [id, { status }] of trials())
    if (trials().size >= mostKept && status !== "running") trials().delete(id)
}

function endOf(code: number | null, said: { out: string; error: string }) {
  const outcome = code === 0 ? parsed(said.out) : null
  if (outcome) return { status: "done", outcome } as const
  const message = said.error.trim() || "The trial was stopped before its end."
  return { status: "failed", message } as const
}

function parsed(text: string): TrialOutcome | null {
  try {
    return TrialOutcome.parse(JSON.parse(text))
  } catch {
    return null
  }
}

/** The last line with words: where the command says why it failed. */
function lastLine(text: string): string {
  return `${text.split("\n").findLast((line) => line.trim() !== "") ?? ""}${text.endsWith("\n") ? "\n" : ""}`
}
