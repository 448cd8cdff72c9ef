import { spawn } from "node:child_process"
import { randomUUID } from "node:crypto"
import { mkdir, rm } from "node:fs/promises"
import path from "node:path"
import { plainToday } from "../domain/plain-date"
import { AppError } from "../errors"
import { changeAndRecord, type AuditEntry } from "../store/audit"
import type { Actor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import {
  beginAccepted,
  createUploadedImport,
  declineImport,
  failUnstartedImport,
  findUpload,
  isImportOver,
} from "../store/imports"

type Site = { client: PrismaClient; importUrl: string; dataDir: string }

/** Where an upload is to be written; the folder is there and only its owner can read it. */
export async function newUploadPath(dataDir: string): Promise<string> {
  const folder = path.join(dataDir, "uploads")
  await mkdir(folder, { recursive: true, mode: 0o700 })
  return path.join(folder, `${randomUUID()}.zip`)
}

/** As many uploads as wait for their turn; each waits in a process of its own. */
const mostAtOnce = 10

/**
 * Starts the import of an uploaded zip file, or a folder of CSV files, in a process of its own, so that the site's memory stays small whatever the size
 * of an extract, and gives its number in the history. The history tells how it goes on.
 * Throws AppError("import-running") while as many are under way as may; the upload is removed then.
 */
export async function startUploadedImport(
  site: Site,
  upload: { uploadPath: string; source: string; isFull: boolean; totalBytes: number; by: Actor; now: Date },
): Promise<number> {
  const { now, by, ...rest } = upload
  const underWay = await site.client.import.count({ where: { status: { in: ["waiting", "running"] } } })
  if (underWay >= mostAtOnce) {
    await rm(upload.uploadPath, { recursive: true, force: true })
    throw new AppError("import-running", "Other imports are under way. Send it again when they have ended.")
  }
  const clinic = await site.client.clinic.findUniqueOrThrow({ where: { id: 1 } })
  const id = await changeAndRecord(
    site.client,
    (transaction) => createUploadedImport(transaction, { ...rest, asOf: plainToday(now, clinic.timeZone) }),
    (made) => ({ ...aboutImport("import.start", { id: made, by }), detail: { isFull: upload.isFull } }),
  )
  runImportProcess(site, { id, uploadPath: upload.uploadPath, isFull: upload.isFull, isAccepted: false })
  return id
}

/** A person has read the question of an import and says to go on. */
export async function acceptImport(site: Site, answer: Answer): Promise<void> {
  const { id, by } = answer
  const upload = await findUpload(site.client, id)
  const isBegun =
    upload !== null &&
    (await changeAndRecord(
      site.client,
      (transaction) => beginAccepted(transaction, id, new Date()),
      (begun) => (begun ? aboutImport("import.accept", { id, by }) : null),
    ))
  if (!isBegun) throw new AppError("not-found", "This import does not ask anything, or its file is gone.")
  runImportProcess(site, { id, ...upload, isAccepted: true })
}

/** A person has read the question and decided against it. */
export async function refuseImport(site: Site, answer: Answer): Promise<void> {
  const { id, by } = answer
  const upload = await findUpload(site.client, id)
  const isDeclined = await changeAndRecord(
    site.client,
    (transaction) => declineImport(transaction, id),
    (declined) => (declined ? aboutImport("import.decline", { id, by }) : null),
  )
  if (!isDeclined) throw new AppError("not-found", "This import does not ask anything.")
  if (upload) await rm(upload.uploadPath, { recursive: true, force: true })
}

type Answer = { id: number; by: Actor }

function aboutImport(action: AuditEntry["action"], { id, by }: Answer): AuditEntry {
  return { by, action, object: "import", objectId: String(id) }
}

function runImportProcess(
  site: Site,
  run: { id: number; uploadPath: string; isFull: boolean; isAccepted: boolean },
): void {
  const command = path.join(process.cwd(), "lib", "cli", "filtrate.mjs")
  const flags = [...(run.isFull ? ["--full"] : []), ...(run.isAccepted ? ["--accept"] : [])]
  const child = spawn(
    process.execPath,
    [command, "import", run.uploadPath, "--import-id", String(run.id), ...flags],
    {
      env: { ...process.env, DATABASE_URL: site.importUrl, FILTRATE_DATA: site.dataDir },
      stdio: "ignore",
    },
  )
  child.once("error", () => void settleProcess(site, run))
  child.once("exit", () => void settleProcess(site, run))
}

/** The upload is of no more use, unless the import asks; and a process that never got so far must not look like waiting. */
async function settleProcess(
  site: Site,
  run: { id: number; uploadPath: string; isAccepted: boolean },
): Promise<void> {
  await failUnstartedImport(site.client, run)
  if (await isImportOver(site.client, run.id)) await rm(run.uploadPath, { recursive: true, force: true })
}
