import { createHash } from "node:crypto"
import { readdirSync, readFileSync, writeFileSync } from "node:fs"
import path from "node:path"
import { wholeClinic } from "../access/scope"
import { plainToday } from "../domain/plain-date"
import { currentSnapshot, snapshotDir } from "../engine/snapshot"
import type { PrismaClient } from "../store/generated/client"
import { inScope } from "../store/in-scope"
import { isClosingNewer } from "../store/month-closings"

const libDir = path.resolve(process.cwd(), "lib")

// What a snapshot is computed with: after a change of these an old one may lack columns.
const program = ["clinical", "engine", "measures"]

/**
 * Whether the snapshot no longer says what the store holds: none yet, something came in since, a month was closed or
 * opened again, the day has turned in the clinic's time zone, or the program that computes it has changed.
 */
export async function isSnapshotStale(options: {
  client: PrismaClient
  dataDir: string
  now: Date
  /** Whether a month may have been closed or opened again meanwhile. */
  areClosingsLeftOut?: boolean
}): Promise<boolean> {
  const { client, dataDir, now } = options
  const file = currentSnapshot(dataDir)
  if (!file) return true
  const build = await client.snapshotBuild.findFirst({
    where: { fileName: path.basename(file), status: "done" },
    orderBy: { startedAt: "desc" },
  })
  const clinic = await client.clinic.findUnique({ where: { id: 1 } })
  if (!build || !clinic) return true
  const { startedAt } = build
  const [imported, changed, mapped, decided] = await Promise.all([
    client.import.findFirst({ where: { finishedAt: { gt: build.startedAt } } }),
    client.setting.findFirst({ where: { updatedAt: { gt: build.startedAt } } }),
    client.drugNameMapping.findFirst({ where: { createdAt: { gt: build.startedAt } } }),
    inScope(client, wholeClinic, (transaction) =>
      transaction.clinicianDecision.findFirst({
        where: { OR: [{ madeAt: { gt: startedAt } }, { undoneAt: { gt: startedAt } }] },
      }),
    ),
  ])
  if (imported || changed || mapped || decided) return true
  if (!options.areClosingsLeftOut && (await isClosingNewer(client, build.startedAt))) return true
  if (plainToday(build.startedAt, clinic.timeZone) !== plainToday(now, clinic.timeZone)) return true
  return readNote(dataDir) !== programStamp(clinic.timeZone)
}

/** Notes beside the snapshot what it was computed with. */
export async function noteSnapshotProgram(options: { client: PrismaClient; dataDir: string }): Promise<void> {
  const clinic = await options.client.clinic.findUniqueOrThrow({ where: { id: 1 } })
  writeFileSync(noteFile(options.dataDir), programStamp(clinic.timeZone))
}

function noteFile(dataDir: string): string {
  return path.join(snapshotDir(dataDir), "program")
}

function readNote(dataDir: string): string | null {
  try {
    return readFileSync(noteFile(dataDir), "utf8")
  } catch {
    return null
  }
}

function programStamp(timeZone: string): string {
  const hash = createHash("sha256").update(timeZone)
  for (const folder of program) {
    const files = readdirSync(path.join(libDir, folder), { recursive: true, withFileTypes: true })
    for (const file of files
      .filter((entry) => entry.isFile())
      .map((entry) => path.join(entry.parentPath, entry.name))
      .sort()) {
      hash.update(`${path.relative(libDir, file)}\0`).update(readFileSync(file))
    }
  }
  return hash.digest("hex")
}
